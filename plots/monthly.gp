# Heating and cooling need by month: existing beside each package.
# $D: month name, heating existing, heating p1..pk, cooling existing, cooling p1..pk; k packages;
# texts name0..name4; variables unit, k.
set multiplot layout 2,1 margins 0.14,0.98,0.09,0.90 spacing 0.21
set style data histograms
set style histogram clustered gap 1
set style fill solid 0.95 border rgb c_text
set boxwidth 1
set yrange [0:*]
set xrange [-0.6:11.6]
names(i) = i == 0 ? name0 : i == 1 ? name1 : i == 2 ? name2 : i == 3 ? name3 : name4
tone(i) = i == 0 ? c_old : i == 1 ? c_p1 : i == 2 ? c_p2 : i == 3 ? c_p3 : c_p4
set ylabel unit offset 1.2,0
set title heat_title
set key top center vertical Left reverse
plot for [i=0:k] $D using (column(2+i)):xtic(1) lc rgb tone(i) title names(i)
set title cool_title
unset key
plot for [i=0:k] $D using (column(3+k+i)):xtic(1) lc rgb tone(i) notitle
unset multiplot
