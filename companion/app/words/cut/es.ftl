# Una pieza cortada en porciones.
cut-heading = Cortar una pieza
cut-dish = Para el plato
cut-touch-dish = Toque el plato
cut-no-dish = Aún no hay platos en la lista
cut-plan =
    { $count ->
        [one] Un corte de { $each }; sobran { $over }, aparte las puntas de { $ends }.
       *[other] { $count } cortes de { $each }; sobran { $over }, aparte las puntas de { $ends }.
    }
cut-nothing-between = Las puntas pesan tanto como la pieza o más. Pese ambas otra vez.
cut-no-piece = Lo que queda entre las puntas es menos de un corte.
cut-too-many = Serían más de 500 cortes. Revise los dos pesos.
cut-too-few =
    { $count ->
        [one] Solo un corte hasta ahora: hacen falta { $fewest } para corregir el siguiente.
       *[other] Solo { $count } cortes hasta ahora: hacen falta { $fewest } para corregir el siguiente.
    }
cut-as-meant = Los últimos cortes están donde debían: sin corrección.
cut-next-under = Los últimos { $count } salieron con { $by } de más de media (de { $low } a { $high }): corte el siguiente { $by } por debajo de donde lo haría.
cut-next-over = Los últimos { $count } salieron con { $by } de menos de media (de { $low } a { $high }): corte el siguiente { $by } por encima de donde lo haría.
