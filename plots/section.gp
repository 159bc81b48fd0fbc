# A frame section, outdoors left, glass up (mm). Left: what it is made of and heat-flow lines, each
# tube with the same share of the heat. Right: isotherms, the dew-point line, the coldest point.
# $M boxes x0 y0 x1 y1 tone; $O outlines, $F flow lines, $I isotherms, $D dew line: x y dx dy value;
# $T labels; $L legend. Variables u0 u1 v0 v1 sight cold_x cold_y cold_text tubes t_low t_high t_step l_unit l_step
# l_scale (mm a unit) t_unit.
set multiplot
set label 100 title at screen 0.03,0.972 font ',13' textcolor rgb c_text
set label 101 figures at screen 0.03,0.938 font ',10' textcolor rgb '#444444'
set size ratio -1
set xrange [u0:u1]
set yrange [v0:v1]
set xtics l_step font ',9'
set ytics l_step font ',9'
if (l_scale != 1) {
  set xtics () font ',9'
  set ytics () font ',9'
  set for [k=ceil(u0/l_step):floor(u1/l_step)] xtics add (sprintf('%g', k*l_step/l_scale) k*l_step)
  set for [k=ceil(v0/l_step):floor(v1/l_step)] ytics add (sprintf('%g', k*l_step/l_scale) k*l_step)
}
unset grid
unset key
set xlabel l_unit.', outdoors left' font ',9' textcolor rgb '#555555'
set style fill solid 1 noborder
set lmargin at screen 0.06
set rmargin at screen 0.40
set bmargin at screen 0.10
set tmargin at screen 0.88
set label 103 sprintf('heat-flow lines, each strip 1/%d of the heat', tubes) at screen 0.06,0.905 font ',10' textcolor rgb c_text
has_sight = (sight == sight)
if (has_sight) { set arrow 1 from u0,sight to u1,sight nohead back dt 3 lc rgb '#777777'; set label 1 'sight line' at u0+1.5,sight+3 font ',8' textcolor rgb '#555555' front }
plot $M using (($1+$3)/2):(($2+$4)/2):1:3:2:4:5 with boxxyerror lc rgb variable, \
     $O using 1:2:3:4 with vectors nohead lc rgb '#444444' lw 0.5, \
     $F using 1:2:3:4 with vectors nohead lc rgb c_warm lw 0.9
unset label 100
unset label 101
unset label 1
set lmargin at screen 0.43
set rmargin at screen 0.77
set label 103 'isotherms, '.t_unit.(strlen(dew_text) ? '; '.dew_text : '') at screen 0.43,0.905 font ',10' textcolor rgb c_text
set palette defined (0 c_cold, 0.5 '#8a8a8a', 1 c_warm)
set cbrange [t_low:t_high]
set colorbox user horizontal origin screen 0.80,0.10 size screen 0.17,0.018
set cbtics font ',8'
set cblabel 'temperature, '.t_unit font ',8'
set label 102 cold_text at screen 0.80,0.145 font ',9' textcolor rgb '#111111'
fade(c) = int(c) == 0xffffff ? 0xffffff : (((int(c) >> 16) & 255) + 2*255)/3*65536 + (((int(c) >> 8) & 255) + 2*255)/3*256 + ((int(c) & 255) + 2*255)/3
plot $M using (($1+$3)/2):(($2+$4)/2):1:3:2:4:(fade($5)) with boxxyerror lc rgb variable, \
     $O using 1:2:3:4 with vectors nohead lc rgb '#9a9a9a' lw 0.5, \
     $I using 1:2:3:4:5 with vectors nohead lw 1.3 lc palette, \
     $D using 1:2:3:4 with vectors nohead lw 3 lc rgb '#111111', \
     $T using 2:3:1 with labels font ',8' textcolor rgb '#111111' offset 0.9,0.5, \
     '+' using (cold_x):(cold_y) every ::0::0 with points pt 6 ps 2 lw 2 lc rgb '#111111'
unset arrow 1
unset label 102
unset label 103
unset xlabel
unset tics
unset border
unset colorbox
set size noratio
set lmargin at screen 0.80
set rmargin at screen 0.99
set tmargin at screen 0.88
set bmargin at screen 0.17
set xrange [0:1]
set yrange [-28:1]
plot $L using (0.04):(-$2):3 with points pt 5 ps 2 lc rgb variable, \
     $L using (0.04):(-$2) with points pt 4 ps 2 lc rgb '#555555' lw 0.5, \
     $L using (0.13):(-$2):1 with labels left font ',9' textcolor rgb c_text
unset multiplot
