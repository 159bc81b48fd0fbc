# Glass kept by opening: the insert's glass over the glass there now, with and without the cuts.
# $D: tag, kept with the cuts (%), kept when fins and lip stay (%); n rows.
set title title
set ylabel 'glass kept, %'
set xrange [0.4:n+0.6]
set yrange [0:112]
set ytics 20
set key top right horizontal
set boxwidth 0.7
set style fill solid 0.95 border rgb c_text
plot 100 with lines lc rgb c_old dt 2 lw 1 title 'glass there now', \
     $D using ($0+1):2:xtic(1) with boxes lc rgb c_p2 title 'insert, cut as measured', \
     $D using ($0+1):3 with points pt 9 ps 1.1 lc rgb c_warm title 'if fins and lip stay', \
     $D using ($0+1):(7):(sprintf('%.0f', $2)) with labels textcolor rgb '#ffffff' notitle
