# Heat in through the windows, a cell an hour: the existing windows above, a package below.
# $D: day, hour, now, then, a blank line after each day. Texts title0, title1, unit; numbers low, high.
# The lightness only grows from heat lost to heat gained, so that the map also reads in black and white.
set multiplot layout 2,1 margins 0.065,0.875,0.07,0.94 spacing 0.13
unset key
unset grid
set xrange [0:365]
set yrange [0:24]
set ytics 0,6,24
set ylabel 'hour of the day'
set xtics ('Jan' 15.5, 'Feb' 45, 'Mar' 74.5, 'Apr' 105, 'May' 135.5, 'Jun' 166, 'Jul' 196.5, \
  'Aug' 227.5, 'Sep' 258, 'Oct' 288.5, 'Nov' 319, 'Dec' 349.5) scale 0
set palette defined (low '#10224d', low*0.45 '#2f5f9e', 0 '#9aa7ad', high*0.12 '#cfa25a', high*0.45 '#f0c76e', high '#fff6d0')
set cbrange [low:high]
set colorbox user origin 0.9,0.16 size 0.018,0.68
set cblabel unit offset 1,0
set title title0
plot $D using 1:2:3 with image
set title title1
unset colorbox
plot $D using 1:2:4 with image
unset multiplot
