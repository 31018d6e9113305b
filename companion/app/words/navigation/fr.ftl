rail-bench = Pesée
rail-dishes = Plats
rail-portions = Portions
rail-mix = Mélange
rail-service = Service
rail-prep = Mise
rail-heat = Sondes
rail-scale = Balance
rail-spoken = Écran { $screen }

back = Retour
next = Suivant
space = Espace
letter-case = A / a
erase = Effacer
erase-all = Tout effacer
probe = Sonde
probe-none = aucune
# The buttons beside a list that is longer than its place.
list-up = Plus haut
list-down = Plus bas
