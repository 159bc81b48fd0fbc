# Where the heat goes: stacked W/K (or Btu/h F) of all openings by part, one bar a window.
# $D: name, centre, edge, frame, divider, retained; variables n, unit, title, top;
# texts old_key, rail_key, frame_key, rim_key, middle_key.
set title title
set ylabel unit
set xrange [0.4:n+0.6]
set yrange [0:top*1.12]
set boxwidth 0.6
set style fill solid 0.95 border rgb c_text
set key outside right center reverse Left invert
plot $D using ($0+1):($2+$3+$4+$5+$6):xtic(1) with boxes lc rgb '#8c8a86' fs pattern 7 border rgb c_text title old_key, \
     $D using ($0+1):($2+$3+$4+$5) with boxes lc rgb '#a9695f' fs solid 1 border rgb c_text title rail_key, \
     $D using ($0+1):($2+$3+$4) with boxes lc rgb '#c9b458' fs solid 1 border rgb c_text title frame_key, \
     $D using ($0+1):($2+$3) with boxes lc rgb '#4f93b8' fs solid 1 border rgb c_text title rim_key, \
     $D using ($0+1):2 with boxes lc rgb '#dfeaf0' fs solid 1 border rgb c_text title middle_key, \
     $D using ($0+1):($2+$3+$4+$5+$6):(sprintf('%.0f', $2+$3+$4+$5+$6)) with labels offset 0,0.7 textcolor rgb c_text notitle
