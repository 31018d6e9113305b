# Los límites con el nombre que se les da en cocina. La fuente se cita en su
# propia lengua.
limit-name = { $name ->
    [cooling] enfriado
    [cooling-from-ambient] enfriado desde temperatura ambiente
    [cold-holding] conservar en frío
    [hot-holding] mantener caliente
    [hot-holding-roast] mantener caliente, asados
    [reheating] regenerar
    [reheating-microwave] regenerar en microondas
    [reheating-packaged] regenerar lo envasado
    [date-marking] marcado de fecha
    [time-only] solo por tiempo
    [time-only-cold] solo por tiempo, frío
    [cook-fish-whole-cut] cocer pescado y piezas enteras
    [cook-minced] cocer picados
    [cook-poultry] cocer aves
    [cook-roast] asar piezas enteras
    [raw-fish-freezing] congelar pescado para crudo
   *[other] { $written }
}
limit-source = { $document }, { $section } ({ $standing ->
    [read] leído
    [quoted] leído en cita
    [from-memory] de memoria
    [common-practice] práctica común, sin fuente
   *[local] ajuste de esta cocina
})
limit-publication = { $title } ({ $standing ->
    [read] leído
    [quoted] leído en cita
    [from-memory] de memoria
    [common-practice] práctica común, sin fuente
   *[local] ajuste de esta cocina
})
limit-caution = Es una medida frente a un límite publicado, no un juicio sobre el alimento. Mandan la normativa local y el personal habilitado.
