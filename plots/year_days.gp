# A cold and a hot day hour by hour, one under the other: the room, its need, the sun, outdoors.
# $C, $H: hour, outdoors, air now, air then, radiant now, radiant then, need now, need then, sun now, sun
# then. Texts cold_title, hot_title, name0, name1, t_unit, w_unit. Now is drawn full, then dashed.
set multiplot layout 4,2 columnsfirst margins 0.085,0.985,0.045,0.875 spacing 0.09,0.075
set xrange [0:24]
set xtics 0,3,24
set style data lines
set offsets 0,0,graph 0.06,graph 0.06
set key at screen 0.535,0.99 center top horizontal samplen 5 maxrows 1
set title offset 0,-0.3
set ytics font ',9'
set style line 1 lc rgb c_old lw 2.4
set style line 2 lc rgb c_p2 lw 2.4 dt (9,5)
set label 1 cold_title at screen 0.29,0.935 center font ',13'
set title 'room air (thin), all surfaces around (thick)'
set ylabel t_unit
plot $C using 1:3 ls 1 lw 1 notitle, '' using 1:4 ls 2 lw 1 notitle, '' using 1:5 ls 1 title name0, '' using 1:6 ls 2 title name1
unset key
unset label 1
set yrange [0:*]
set offsets 0,0,graph 0.06,0
set title 'heating'
set ylabel w_unit
plot $C using 1:7 ls 1, '' using 1:8 ls 2
set title 'sun through the glass'
plot $C using 1:9 ls 1, '' using 1:10 ls 2
set yrange [*:*]
set offsets 0,0,graph 0.06,graph 0.06
set title 'outdoors'
set ylabel t_unit
plot $C using 1:2 lc rgb c_old lw 1.8 dt (5,3)
set offsets 0,0,graph 0.06,graph 0.06
set label 1 hot_title at screen 0.77,0.935 center font ',13'
set title 'room air (thin), all surfaces around (thick)'
plot $H using 1:3 ls 1 lw 1 notitle, '' using 1:4 ls 2 lw 1 notitle, '' using 1:5 ls 1, '' using 1:6 ls 2
unset label 1
set yrange [0:*]
set offsets 0,0,graph 0.06,0
set title 'cooling'
set ylabel w_unit
plot $H using 1:7 ls 1, '' using 1:8 ls 2
set title 'sun through the glass'
plot $H using 1:9 ls 1, '' using 1:10 ls 2
set yrange [*:*]
set offsets 0,0,graph 0.06,graph 0.06
set title 'outdoors'
set ylabel t_unit
plot $H using 1:2 lc rgb c_old lw 1.8 dt (5,3)
unset multiplot
