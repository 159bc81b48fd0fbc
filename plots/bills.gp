# Heating and cooling cost of a year by set of windows, with the 10 to 90 % band where it is known.
# $D: name, likely, low, high (low and high NaN: not known); n rows; variables title, unit.
set title title
set ylabel unit
set xrange [0.4:n+0.6]
set yrange [0:top*1.15]
unset key
set boxwidth 0.6
set style fill solid 0.9 border rgb c_text
colour(i) = i == 1 ? 0x3b3a39 : i == 2 ? 0xc9b458 : i == 3 ? 0x4f93b8 : i == 4 ? 0x1f5c56 : 0xa9695f
plot $D using ($0+1):2:(colour(int($0)+1)):xtic(1) with boxes lc rgb variable, \
     $D using ($0+1):3:(0):($4-$3) with vectors heads size graph 0.012,90 lw 1.8 lc rgb c_warm
