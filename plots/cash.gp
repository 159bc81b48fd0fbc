# Outlay and savings added up over the years, discounted, one line a package.
# $D: year, p1..p4 ($); k packages; texts name1..name4; years.
set title title
set xlabel 'years after the work'
set ylabel '$'
set format y '%.0f'
set xrange [0:years]
set xtics 5
set yrange [*:0<*]
set key outside right top
set arrow from 0,0 to years,0 nohead lc rgb c_old lw 1.2
set label 'paid back' at years,0 right offset 0,-0.7 textcolor rgb c_old
names(i) = i == 1 ? name1 : i == 2 ? name2 : i == 3 ? name3 : name4
tone(i) = i == 1 ? c_p1 : i == 2 ? c_p2 : i == 3 ? c_p3 : c_p4
plot for [i=1:k] $D using 1:(column(1+i)) with linespoints lc rgb tone(i) lw 2 pt (4+i) ps 0.7 pi 5 title names(i)
