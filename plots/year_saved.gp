# How the saving grows over the year. $P1..$Pk: day, heating kWh, cooling kWh, money. Texts name0..name4,
# heat_title, cool_title, cost_title, heat_unit, cost_unit; number k.
set multiplot layout 1,3 margins 0.085,0.98,0.09,0.91 spacing 0.085
set xrange [0:365]
set xtics ('Jan' 15.5, 'Mar' 74.5, 'May' 135.5, 'Jul' 196.5, 'Sep' 258, 'Nov' 319) scale 0
set xzeroaxis lc rgb '#666666' lw 1
set style data lines
names(i) = i == 1 ? name1 : i == 2 ? name2 : i == 3 ? name3 : name4
tone(i) = i == 1 ? c_p1 : i == 2 ? c_p2 : i == 3 ? c_p3 : c_p4
block(i) = '$P'.i
set for [i=1:4] style line i lw 2.2 lc rgb tone(i)
set style line 1 dt (7,3)
set style line 2 dt (12,3,2,3)
set style line 4 dt (2,2)
unset key
set title heat_title
set ylabel heat_unit
plot for [i=1:k] block(i) using 1:2 ls i notitle
set title cool_title
set key top left Left reverse samplen 5
set offsets 0,0,graph 0.3,0
plot for [i=1:k] block(i) using 1:3 ls i title names(i)
unset key
set offsets 0,0,0,0
set title cost_title
set ylabel cost_unit
plot for [i=1:k] block(i) using 1:4 ls i notitle
unset multiplot
