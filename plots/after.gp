# A house before and after the work, and what was promised beside it. $B: first second, last second, use a day, model of
# before a day (NaN none), kind (0 before, 1 after, 2 not used). $P: name, promised 10, 50, 90 %, measured 10, middle,
# 90 %; NaN where there is none; n rows. work: seconds. one: 1 with $B, else $P alone over the whole width.
if (one) set multiplot title what font ',13' offset 0,-0.2
if (!one) set title what font ',13'
set style fill solid 0.9 noborder
tone(k) = k == 0 ? 0xbdbab4 : k == 1 ? 0x4f93b8 : 0xe4e1db
if (one) {
  set yrange [0:high]
  set lmargin at screen 0.07; set rmargin at screen 0.62
  set tmargin at screen 0.83; set bmargin at screen 0.13
  set xrange [first:last]
  set format x "%b\n%Y" timedate
  set xtics step offset 0,0.2 font ',9'
  set ylabel sprintf('%s a day', unit) offset 0.5,0
  set key at graph 0.5, graph 1.02 center bottom horizontal samplen 1.6
  set title ''
  set arrow 1 from work,0 to work,high nohead dt 2 lw 1.6 lc rgb c_warm front
  plot $B using ($5 == 0 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(0) title 'before', \
       $B using ($5 == 1 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(1) title 'after', \
       $B using ($5 >= 2 ? ($1+$2)/2 : NaN):($3/2):1:2:(0):3 with boxxyerror fc rgb tone(2) title (n_out ? 'not used' : ''), \
       $B using 1:4:($2-$1):(0) with vectors nohead lw 2.6 lc rgb c_old title 'the house of before'
  unset arrow 1
  unset format
  set lmargin at screen 0.72; set rmargin at screen 0.985
}
set format '%g'
set xrange [low-0.06*(top-low):top+0.06*(top-low)]
set yrange [n-0.4:-0.6]
set ytics () font ',9'
do for [i=1:n] { set ytics add (value(sprintf('name%d', i)) i-1) }
unset ylabel
set xtics tick offset 0,0.2
set xlabel axis offset 0,0.4
set arrow 2 from 0,graph 0 to 0,graph 1 nohead lw 0.8 lc rgb c_text back
set key at graph 0.5, graph 1.02 center bottom horizontal samplen 1.6
plot $P using 3:($0-0.13):2:4 with xerrorbars pt 7 ps 0.9 lw 2.4 lc rgb 0x3b3a39 title 'promised', \
     $P using 6:($0+0.13):5:7 with xerrorbars pt 7 ps 0.9 lw 2.4 lc rgb 0x4f93b8 title 'by the bills'
if (one) unset multiplot
