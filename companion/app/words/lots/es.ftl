# Lotes: un alimento por sus pasos, cada uno frente a su límite.
lots-heading = Lotes
lots-none = Todavía no hay ningún lote escrito
lots-how = Un lote es un archivo en la carpeta «lots» de los datos de esta cocina: un título y, para cada paso, su nombre, cuándo empezó y acabó, el registro que lo leyó y el límite con que se compara.
lots-touch = Toque un lote
lots-about = { $mark }, { $steps ->
    [one] un paso
   *[other] { $steps } pasos
}
lots-about-step = { $mark }: { $step }
lots-page = Hoja para la inspección
lots-written = La hoja para imprimir está en { $path }.
lots-not-written = No se puede escribir la hoja: { $why }. No se cambió nada.
lots-no-lot = Ese lote ya no está en la carpeta. Vuelva y elija otra vez.
