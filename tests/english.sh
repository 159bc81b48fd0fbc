#!/bin/sh
# English words left in what a reader sees or hears of a paper in another tongue: sh tests/english.sh FILE...
# What is marked lang="en" stands in both tongues on purpose. The job's own words (in <bdi>) may be of any tongue. Prints them, a line each, and ends with 1 when there are any.
for f in "$@"; do
  awk 'BEGIN { RS = "\001" }
    { gsub(/<style>.*<\/style>/, " "); gsub(/<bdi[^>]*>[^<]*<\/bdi>/, " ");
      gsub(/<(p|span|li)[^>]*lang="en">(<strong>[^<]*<\/strong>)?[^<]*<\/(p|span|li)>/, " "); # said in both on purpose
      gsub(/aria-label="/, ">"); gsub(/<title>[^<]*<\/title>/, " "); gsub(/<[^>]*>/, " "); print }' "$f" |
    grep -owiE 'the|with|and|of|is|are|from|by|not|window|windows|glass|room|opening|width|height|saved|year|price|heat|light|sill|ask|which|before|after|there|each|what' |
    sort | uniq -c | sed "s|^|$(basename "$f"):|"
done | { ! grep .; }
