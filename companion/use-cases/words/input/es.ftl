# Lo que se ha escrito y no sirve.
input-field = { $name ->
    [vessel] recipiente
    [pieces] piezas
    [lost] merma
    [portions] raciones
    [picture] foto
    [pictures] fotos
    [mass] masa
    [loss] merma
    [volume] volumen
    [formula] fórmula
    [stages] etapas
    [ingredients] ingredientes
    [ingredient] ingrediente
    [water] agua
    [salt] sal
    [sugar] azúcar
    [temperature] temperatura
    [density] densidad
    [ice] hielo
    [room] cabida
    [target] objetivo
    [material] material
    [method] método
    [contents] contenido
    [meat] carne
    [pickle] salmuera
    [pickup] absorción
    [friction] fricción
    [step] escalón
    [ratio] proporción
    [change] cambio
    [amount] cantidad
    [closeness] cercanía
    [shape] forma
    [unit] unidad
    [dish] plato
    [time] hora
    [goods] género
    [menu] menú
    [order] pedido
    [item] elemento
    [reason] motivo
    [probe-uncertainty] incertidumbre de la sonda
    [volume-uncertainty] incertidumbre del volumen
    [scale-uncertainty] incertidumbre de la báscula
    [density-uncertainty] incertidumbre de la densidad
    [net-mass] masa neta
    [weight-after-curing] peso después del curado
    [skin-on] con piel
    [coldest-water] agua más fría
    [water-s-temperature] temperatura del agua
    [ice-s-temperature] temperatura del hielo
    [dough-s-temperature] temperatura de la masa
    [temperature-of-what-was-made-beforehand] temperatura de lo hecho de antemano
    [known-temperatures] temperaturas conocidas
    [bath-after] baño después
    [bath-after--mass] baño después, masa
    [bath-after--within] baño después, margen
    [salt-in-the-piece] sal en la pieza
    [salt-in-the-piece--within] sal en la pieza, margen
    [starter--hydration] masa madre, hidratación
    [salt--per-cent-of-water] sal, por ciento del agua
    [salt--per-cent-of-solution] sal, por ciento de la solución
    [salometer] salómetro
    [salometer-degrees] grados de salómetro
    [the-file] el archivo
    [the-file-s-name] el nombre del archivo
    [raw-weight] peso en crudo
    [thickness] grosor
    [within] margen
   *[other] { $field }
}
input-line = línea { $line }
input-line-column = línea { $line }, columna { $column }
input-refused = { $field }: { $value } { $problem }; { $expected }
input-unsaid = { $field } { $problem }; { $expected }
