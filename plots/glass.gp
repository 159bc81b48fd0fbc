# A glass unit: light by wavelength ($S: nm, T, R front, R back, sun's shape), by angle ($A: deg,
# SHGC, VT, T, R; $H hemispherical), temperature through it ($T: mm, dark, sun; $P panes).
# panel: all, spectral, angular, profile.
all = panel eq 'all'
if (all) {
  set multiplot title unit_text font ',12' offset 0,-0.3
  set lmargin at screen 0.065; set rmargin at screen 0.985
  set tmargin at screen 0.865; set bmargin at screen 0.57
} else {
  set tmargin 5.2
}
if (all || panel eq 'spectral') {
  set title (all ? sprintf("By wavelength, at %g deg\n ", angle) : sprintf("%s\nby wavelength, at %g deg\n ", unit_text, angle))
  set xlabel 'wavelength, nm' offset 0,0.4
  set ylabel 'share'
  set xrange [300:2500]
  set yrange [0:1.1]
  set xtics 200
  set ytics 0.2
  set key at graph 0.5, graph 1.01 center bottom horizontal samplen 3
  set object 1 rectangle from 380,0 to 780,1.1 fc rgb '#f3ead0' fs solid 0.6 noborder behind
  set label 1 'visible' at 580,1.05 center textcolor rgb '#7a6a35'
  plot $S using 1:5 with filledcurves y1=0 fc rgb '#e4e2de' fs solid 0.8 title 'sun, its shape', \
       $S using 1:2 with lines lw 2.4 lc rgb c_p3 title 'through', \
       $S using 1:3 with lines lw 2 dt 2 lc rgb c_warm title 'reflected outdoors', \
       $S using 1:4 with lines lw 1.6 dt 4 lc rgb c_cold title 'reflected indoors'
  unset object 1
  unset label 1
}
if (all) {
  set lmargin at screen 0.065; set rmargin at screen 0.47
  set tmargin at screen 0.405; set bmargin at screen 0.085
}
if (all || panel eq 'angular') {
  set title (all ? "By angle of incidence\n \n " : sprintf("%s\nby angle of incidence\n ", unit_text))
  set xlabel 'angle of incidence, deg (all: from the whole hemisphere)' offset 0,0.4
  set ylabel 'share'
  set xrange [0:100]
  set yrange [0:1]
  set xtics 10 offset 0,0.2
  set xtics ('0' 0, '10' 10, '20' 20, '30' 30, '40' 40, '50' 50, '60' 60, '70' 70, '80' 80, '90' 90, 'all' 96)
  set ytics 0.2
  set key at graph 0.5, graph 1.01 center bottom horizontal samplen 3
  plot $A using 1:2 with linespoints lw 2.2 pt 7 ps 0.9 lc rgb c_warm title 'SHGC', \
       $A using 1:3 with linespoints lw 2.2 pt 5 ps 0.9 lc rgb c_p3 title 'light', \
       $A using 1:4 with lines lw 1.6 dt 2 lc rgb c_old title 'sun through', \
       $A using 1:5 with lines lw 1.6 dt 4 lc rgb c_cold title 'sun reflected', \
       $H using 1:2 with points pt 7 ps 1.1 lc rgb c_warm notitle, \
       $H using 1:3 with points pt 5 ps 1.1 lc rgb c_p3 notitle
  set xtics autofreq
}
if (all) {
  set lmargin at screen 0.555; set rmargin at screen 0.985
}
if (all || panel eq 'profile') {
  set xlabel 'mm from the outer surface; dotted: air outdoors, in the room' offset 0,0.4
  set ylabel sprintf('temperature, %s', t_unit)
  edge = depth_mm * 0.16 + 2
  set xrange [-edge:depth_mm + edge]
  set yrange [t_low:t_high]
  set xtics autofreq
  set ytics autofreq
  set key at graph 0.5, graph 1.01 center bottom horizontal samplen 3
  set title (all ? "Temperature through the unit\n \n " : sprintf("%s\ntemperature through the unit\n ", unit_text))
  plot $P using 1:(t_low):1:2:(t_low):(t_high) with boxxyerror fc rgb '#dfe7e6' fs solid 1 noborder notitle, \
       $T using 1:2 with linespoints lw 2.2 pt 5 ps 0.9 lc rgb c_cold title sprintf('%s', conditions), \
       $T using 1:3 with linespoints lw 2.2 pt 7 ps 0.9 lc rgb c_warm title 'in the sun of SHGC', \
       '+' using (-edge):(dark_out):(edge * 0.8):(0) every ::0::0 with vectors nohead lw 2 dt 3 lc rgb c_cold notitle, \
       '+' using (depth_mm + edge * 0.2):(dark_in):(edge * 0.8):(0) every ::0::0 with vectors nohead lw 2 dt 3 lc rgb c_cold notitle, \
       '+' using (-edge):(sun_out):(edge * 0.8):(0) every ::0::0 with vectors nohead lw 2 dt 3 lc rgb c_warm notitle, \
       '+' using (depth_mm + edge * 0.2):(sun_in):(edge * 0.8):(0) every ::0::0 with vectors nohead lw 2 dt 3 lc rgb c_warm notitle
}
if (all) { unset multiplot }
