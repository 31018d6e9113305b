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
letter-case = A / a
erase = Borrar
erase-all = Borrar todo
probe = Sonda
probe-none = no hay
# The buttons beside a list that is longer than its place.
list-up = Más arriba
list-down = Más abajo
