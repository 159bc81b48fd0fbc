# Indoor humidity at which the coldest part begins to sweat, against outdoor temperature.
# $D: outdoor temperature, then one column a window (existing, packages); k packages.
set title title
set xlabel x_label
set ylabel y_label
set yrange [0:100]
set ytics 20
set grid xtics ytics lc rgb c_grid lt 1 lw 0.6
set key top left Left reverse
names(i) = i == 0 ? name0 : i == 1 ? name1 : i == 2 ? name2 : i == 3 ? name3 : name4
tone(i) = i == 0 ? c_old : i == 1 ? c_p1 : i == 2 ? c_p2 : i == 3 ? c_p3 : c_p4
set arrow 1 from design, graph 0 to design, graph 1 nohead lc rgb '#888888' dt 3
set label 1 design_text at design, graph 0.04 offset 0.6,0 textcolor rgb '#555555'
plot for [i=0:k] $D using 1:(column(2+i)) with linespoints lc rgb tone(i) lw (1.6+1.1*(k-i)) pt (i == 0 ? 5 : i == 1 ? 7 : i == 2 ? 9 : i == 3 ? 11 : 13) ps (0.8+0.3*(k-i)) title names(i)
