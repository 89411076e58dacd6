"""The units of this trade, as pint's definitions.

Pint's own file has a thousand more and takes ten times as long to load. Yard and pound as agreed in 1959
(0.9144 m, 0.45359237 kg), US gallon 231 cubic inches, imperial gallon 4.54609 L, standard gravity 9.80665 m/s²: exact.
"""

DEFINITIONS = """
kilo- = 1e3 = k-
mega- = 1e6 = M-
giga- = 1e9 = G-
deci- = 1e-1 = d-
centi- = 1e-2 = c-
milli- = 1e-3 = m-
micro- = 1e-6 = µ- = u-
meter = [length] = m = metre
gram = [mass] = g
second = [time] = s
kelvin = [temperature]; offset: 0 = K
mole = [substance] = mol
ampere = [current] = A
candela = [luminosity] = cd
radian = [] = rad
percent = 0.01 = %
pi = 3.1415926535897932384626433832795
degree = pi / 180 * radian = ° = deg
degree_Celsius = kelvin; offset: 273.15 = °C = degC = celsius
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = °F = degF = fahrenheit
minute = 60 * second = min
hour = 60 * minute = h = hr
day = 24 * hour = d
week = 7 * day
liter = 1e-3 * meter ** 3 = l = L = litre
metric_ton = 1e3 * kilogram = t = tonne
inch = 25.4 * millimeter = in
foot = 12 * inch = ft
yard = 3 * foot = yd
thou = 1e-3 * inch = th = mil
pound = 0.45359237 * kilogram = lb
ounce = pound / 16 = oz
gallon = 231 * inch ** 3 = gal
quart = gallon / 4 = qt
pint = quart / 2 = pt
fluid_ounce = pint / 16 = floz = fl_oz
imperial_gallon = 4.54609 * liter
newton = kilogram * meter / second ** 2 = N
pascal = newton / meter ** 2 = Pa
joule = newton * meter = J
kilocalorie = 4184 * joule = kcal
force_pound = 9.80665 * meter / second ** 2 * pound = lbf = pound_force
psi = force_pound / inch ** 2
poise = 0.1 * pascal * second = P
centipoise = 1e-3 * pascal * second = cP
"""
