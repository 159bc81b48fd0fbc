# The Pareto set of a search: price against heating and cooling, coloured by light. $F: price, heating,
# cooling, light kept; $T: the same of the best. Variables: title, x_label, heat_label, cool_label,
# light_label, top_key.
set multiplot layout 1,2 title title noenhanced margins 0.105,0.9,0.13,0.85 spacing 0.115
set palette defined (0 '#26303a', 0.35 c_p3, 0.7 c_p2, 1 '#e9d98a')
set cblabel light_label
set xlabel x_label
set key top right
unset colorbox
set ylabel heat_label
plot $F using 1:2:4 with points pt 7 ps 0.35 lc palette notitle, \
     $T using 1:2 with points pt 6 ps 1.3 lw 1.6 lc rgb c_warm title top_key
set colorbox user origin 0.925,0.13 size 0.016,0.72
set ylabel cool_label
plot $F using 1:3:4 with points pt 7 ps 0.35 lc palette notitle, \
     $T using 1:3 with points pt 6 ps 1.3 lw 1.6 lc rgb c_warm notitle
unset multiplot
