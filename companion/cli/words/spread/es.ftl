# La desviación, como tabla.
spread-portions = raciones
spread-mean = media
spread-deviation = desviación típica
spread-variation = coeficiente de variación
spread-lightest = la más ligera
spread-heaviest = la más pesada
spread-short = falta
spread-on = en peso
spread-heavy = sobra
spread-given-away = regalado
spread-share = { $share } ({ $count ->
    [one] { $count } ración
   *[other] { $count } raciones
})
spread-money-known = { $grams }, { $money } por { $count ->
    [one] la { $count } ración cuyo coste se conoce
   *[other] las { $count } raciones cuyo coste se conoce
}
spread-not-known = no se sabe
spread-without = sin ellas
spread-with = con ellas
spread-others = frente a los demás
spread-interval = { $difference } g, { $confidence } % de { $low } a { $high } g
spread-no-difference = { $interval }: no se ve diferencia
spread-elsewhere = raciones de tandas empezadas en otro sitio
spread-hour = de { $from } a { $to }
spread-tin = cubeta { $tin }
spread-no-tin = de ninguna cubeta registrada
spread-cook = cocinero { $number }
spread-everybody = todos los demás
spread-nothing = No hay raciones registradas de ese tiempo.
spread-report-ending = --report: { $path } no tiene una terminación conocida; nombre un archivo que termine en .pdf, .png o .svg
spread-no-service = --day: no hay raciones registradas del servicio de { $day }; `evenhand service list` muestra los que hay
spread-report-written = El servicio de { $day } está escrito en { $path }.
