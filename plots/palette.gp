# Colours of panewright's pictures: our own, told apart by colour-blind eyes and, by lightness, in
# black and white. c_old stands for what is there now, c_p1..c_p4 for the packages.
c_old = '#3b3a39'
c_p1 = '#c9b458'
c_p2 = '#4f93b8'
c_p3 = '#1f5c56'
c_p4 = '#a9695f'
c_warm = '#b5482f'
c_cold = '#2f6db0'
c_grid = '#d8d6d2'
c_text = '#222222'
set border 3 lc rgb '#666666'
set tics nomirror out scale 0.6 textcolor rgb c_text
set grid ytics lc rgb c_grid lt 1 lw 0.6
set key noenhanced
set title noenhanced
