rail-bench = Pesar
rail-dishes = Platos
rail-portions = Raciones
rail-mix = Mezclas
rail-service = Servicio
rail-prep = Mise
rail-heat = Sondas
rail-scale = Báscula
rail-spoken = Pantalla { $screen }

back = Volver
next = Siguiente
space = Espacio
erase = Borrar
erase-all = Borrar todo
probe = Sonda
probe-none = no hay
