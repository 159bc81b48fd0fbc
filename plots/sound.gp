# Sound reduction by third octaves ($R: index of the band, R, low and high of the parameter sets, the
# reference of Rw shifted). sets: 1 when the band of sets is drawn.
set tmargin 5.2
set title sprintf("%s\nRw (C; Ctr) %s dB%s\n ", what, rw, stc)
set xlabel 'third octave, Hz' offset 0,0.3
set ylabel 'sound reduction R, dB'
set xrange [-0.5:20.5]
set yrange [0:*]
set xtics ('50' 0, '63' 1, '80' 2, '100' 3, '125' 4, '160' 5, '200' 6, '250' 7, '315' 8, '400' 9, '500' 10, '630' 11, '800' 12, '1000' 13, '1250' 14, '1600' 15, '2000' 16, '2500' 17, '3150' 18, '4000' 19, '5000' 20) font ',9'
set key at graph 0.5, graph 1.01 center bottom horizontal samplen 3
if (sets) {
  plot $R using 1:3:4 with filledcurves fc rgb c_p1 fs solid 0.35 title 'between the three sets', \
       $R using 1:5 with lines lw 1.8 dt 2 lc rgb c_old title 'reference of Rw, shifted', \
       $R using 1:2 with linespoints lw 2.4 pt 7 ps 0.7 lc rgb c_p3 title lead
} else {
  plot $R using 1:5 with lines lw 1.8 dt 2 lc rgb c_old title 'reference of Rw, shifted', \
       $R using 1:2 with linespoints lw 2.4 pt 7 ps 0.7 lc rgb c_p3 title lead
}
