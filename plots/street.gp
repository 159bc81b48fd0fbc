# A street: what each house saves by one package, least first, and what all save together.
# $D: name, low, typical, high; n rows. $T: label, low, typical, high; 3 rows. cut, gap, foot: shares of the height.
set multiplot
unset key
set border 1 lc rgb '#666666'
set ytics scale 0
unset grid
set grid xtics lc rgb c_grid lt 1 lw 0.6
set format x '$%.0f'
set lmargin left
set rmargin 4
set title title
set tmargin at screen 0.93
set bmargin at screen cut
set xlabel 'saved a year: eight of ten cases, the dot is typical'
set yrange [n-0.3:-0.7]
if (n > 60) { unset ytics }
if (n > 60) { plot $D using 3:0:2:4 with xerrorbars pt 7 ps 0.3 lc rgb c_p2 lw 1 } \
else { plot $D using 3:0:2:4:yticlabels(1) with xerrorbars pt 7 ps 0.9 lc rgb c_p2 lw 2 }
set ytics
set title together
set tmargin at screen cut - gap
set bmargin at screen foot
set xlabel 'saved a year, all houses'
set yrange [2.7:-0.7]
set xtics autofreq
plot $T using 3:0:2:4:yticlabels(1) with xerrorbars pt 7 ps 0.9 lc rgb c_p1 lw 3
unset multiplot
