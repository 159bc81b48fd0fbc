# How much quieter each opening gets: $C: place, 10 %, 50 %, 90 % in dB, package from 1; $X: place of the
# opening, its tag. k packages; step: from package to package.
set tmargin 5
set title title offset 0,0.9
set bmargin 4.6
set lmargin 8
set ylabel 'quieter by, dB (Rw + Ctr, whole opening)'
set xlabel 'opening; bars hold 8 in 10 draws, the mark the middle one; grey: within 3 dB, just noticed' offset 0,-1.0
set xrange [0.4:n + 0.6]
set yrange [low:high]
set grid ytics lc rgb c_grid lt 1 lw 0.6
set key at graph 0.5, graph 1.01 center bottom horizontal samplen 2
unset xtics
names(i) = i == 1 ? name1 : i == 2 ? name2 : i == 3 ? name3 : name4
tone(i) = i == 1 ? c_p1 : i == 2 ? c_p2 : i == 3 ? c_p3 : c_p4
set object 1 rectangle from graph 0, first -3 to graph 1, first 3 fc rgb '#efede8' fs solid 1 noborder behind
set arrow 1 from graph 0, first 0 to graph 1, first 0 nohead lc rgb '#888888' lw 1
plot for [i=1:k] $C using ($5 == i ? $1 : NaN):3:2:4 with yerrorbars lc rgb tone(i) lw 2.4 pt (i == 1 ? 7 : i == 2 ? 9 : i == 3 ? 11 : 13) ps 1 title names(i), \
     $X using 1:(low):2 with labels offset 0,-0.9 textcolor rgb c_text notitle
