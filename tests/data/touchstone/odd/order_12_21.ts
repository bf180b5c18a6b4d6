[Version] 2.1
# GHz S MA R 50
[number of ports] 2
[Two-Port  Data Order] 12_21
[Number of Frequencies] 1
[Begin Information]
[Made by] an invented bench
2 3 4
[End Information]
[Network Data]
2 .95 -26 .04 76 3.57 157 .66 -14
[End]
