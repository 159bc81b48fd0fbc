# Bills and model. $B: first second, last second, use a day, fitted a day, mean temperature, kind (0 used,
# 1 left out as odd, 2 before a change, 3 not used). high: of the axis of use. fitted: 1 when there is a model.
set multiplot title what font ',13' offset 0,-0.2
set style fill solid 0.9 noborder
tone(k) = k == 0 ? 0x4f93b8 : k == 1 ? 0xb5482f : 0xbdbab4
set yrange [0:high]
set lmargin at screen 0.07; set rmargin at screen 0.64
set tmargin at screen 0.83; set bmargin at screen 0.13
set xrange [first:last]
set format x "%b\n%Y" timedate
set xtics step offset 0,0.2 font ',9'
set ylabel sprintf('%s a day', unit) offset 0.5,0
set key at graph 0.5, graph 1.02 center bottom horizontal samplen 1.6
set title ''
plot $B using ($6 == 0 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(0) title 'bill, used', \
     $B using ($6 == 1 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(1) title (n_odd ? 'left out: odd' : ''), \
     $B using ($6 >= 2 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(2) title (n_out ? 'not used' : ''), \
     $B using 1:(fitted ? $4 : NaN):($2-$1):(0) with vectors nohead lw 2.6 lc rgb c_old title (fitted ? 'model' : '')
set lmargin at screen 0.71; set rmargin at screen 0.985
unset format
set format '%g'
set xrange [cold:hot]
set xtics autofreq offset 0,0.2
set xlabel sprintf('mean of the days, %s', t_unit) offset 0,0.4
unset ylabel
set key off
plot $B using 5:($6 == 0 ? $3 : NaN) with points pt 7 ps 0.9 lc rgb tone(0), \
     $B using 5:($6 == 1 ? $3 : NaN) with points pt 7 ps 0.9 lc rgb tone(1), \
     $B using 5:($6 >= 2 ? $3 : NaN) with points pt 7 ps 0.7 lc rgb tone(2), \
     $B using 5:(fitted ? $4 : NaN) with points pt 1 ps 1.1 lw 1.8 lc rgb c_old
unset multiplot
