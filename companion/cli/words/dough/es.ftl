# Las masas mezcladas, y las piezas en un baño.
dough-mixed = elaboración { $number }: { $rose }
dough-other-batch = --batch: { $number } se titula { $title }, la masa { $formula }; indique la elaboración que es, o quite --batch
dough-untitled-batch = --batch: { $number } no tiene título, la masa es { $formula }; indique la elaboración que es, o quite --batch
uptake-not-in-bath = BATCH: nada de la elaboración { $number } se pesó al entrar en un baño; eso lo hace `evenhand brine in`
