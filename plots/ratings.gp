# U-factor and sun-heat number by window. $D: name, U, U as printed, SHGC, VT; n rows.
# Variables: u_unit, u_label, u_max. Grey existing first, packages after.
set multiplot layout 1,2 margins 0.09,0.985,0.12,0.88 spacing 0.08
set boxwidth 0.62
set xrange [0.4:n+0.6]
set yrange [0:u_max*1.15]
unset key
colour(i) = i == 1 ? 0x3b3a39 : i == 2 ? 0xc9b458 : i == 3 ? 0x4f93b8 : i == 4 ? 0x1f5c56 : 0xa9695f
set style fill solid 0.9 border rgb c_text
set title u_label
set ylabel u_unit
plot $D using ($0+1):2:(colour(int($0)+1)):xtic(1) with boxes lc rgb variable, \
     $D using ($0+1):2:(sprintf(u_format, column(2))) with labels offset 0,0.7 textcolor rgb c_text
set title sun_label
set ylabel ''
set yrange [0:1.05]
set key top right
set boxwidth 0.38
set ytics 0.2
plot $D using ($0+1):(0):xtic(1) with points pt -1 notitle, \
     $D using ($0+0.8):3 with boxes lc rgb c_warm fs solid 0.85 border rgb c_text title shgc_key, \
     $D using ($0+1.2):4 with boxes lc rgb '#e8dfae' fs pattern 4 border rgb c_text title vt_key, \
     $D using ($0+0.8):3:(sprintf('%.2f', column(3))) with labels font ',9' offset 0,0.6 textcolor rgb c_text notitle, \
     $D using ($0+1.2):4:(sprintf('%.2f', column(4))) with labels font ',9' offset 0,0.6 textcolor rgb c_text notitle
unset multiplot
