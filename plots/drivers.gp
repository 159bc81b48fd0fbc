# What drives a saving: share of its variance by input, largest on top.
# $D: input, share alone (%), share in all (%); n rows; top of the axis.
set title title
unset key
set border 1 lc rgb '#666666'
set xlabel 'share of the variance of the saving, %'
set xrange [0:top]
set yrange [n-0.4:-0.6]
unset grid
set grid xtics lc rgb c_grid lt 1 lw 0.6
set ytics scale 0
set key bottom right
set style fill solid 0.95 border rgb c_text
plot $D using (0.5*$3):0:(0.5*$3):(0.32):yticlabels(1) with boxxyerror lc rgb c_p1 title 'with all it works with', \
     $D using (0.5*$2):0:(0.5*$2):(0.32) with boxxyerror lc rgb c_p3 title 'alone', \
     $D using 3:0:(sprintf('  %.0f', $3)) with labels left textcolor rgb c_text notitle
