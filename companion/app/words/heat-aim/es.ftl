# Qué se vigila en un registro de temperatura: un intervalo o un límite.
aim-title = ¿Qué se vigila en { $name }?
aim-title-unnamed = ¿Qué se vigila en el registro de temperatura?
aim-band = Un intervalo en el que estar
aim-limit = O un límite que cumplir

# Leído en voz alta: los botones que mueven un extremo del intervalo.
aim-lower-end = Extremo inferior { $step }
aim-upper-end = Extremo superior { $step }
