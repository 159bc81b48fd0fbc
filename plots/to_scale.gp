# Windows of one opening to scale, side by side. $R: x0, x1, y0, y1, colour (0xRRGGBB) of each
# rectangle, back to front; $L: x, y, text; x_max, y_max of the whole. $P: outlines of shapes over them,
# back to front, two blank lines between; n_outline of them, outline_colour "#RRGGBB #RRGGBB ...".
unset border
unset tics
unset grid
unset key
set size ratio -1
set xrange [0:x_max]
set yrange [0:y_max]
set lmargin 0
set rmargin 0
set tmargin 0
set bmargin 0
boxes = "$R using (0.5*($1+$2)):(0.5*($3+$4)):1:2:3:4:5 with boxxyerror fs solid 1 border rgb '#444444' lw 0.7 lc rgb variable"
filled = "for [i=1:n_outline] $P index (i-1) using 1:2 with filledcurves closed fs solid 1 noborder fc rgb word(outline_colour, i)"
lines = "for [i=1:n_outline] $P index (i-1) using 1:2 with lines lc rgb '#444444' lw 0.7"
names = "$L using 1:2:3 with labels center textcolor rgb c_text"
if (n_outline > 0) plot @boxes, @filled, @lines, @names; else plot @boxes, @names
