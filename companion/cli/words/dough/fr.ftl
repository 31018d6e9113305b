# Les pâtes pétries, et les pièces dans un bain.
dough-mixed = préparation { $number } : { $rose }
dough-other-batch = --batch : { $number } a pour titre { $title }, la pâte { $formula } ; nommez la préparation dont il s'agit, ou ôtez --batch
dough-untitled-batch = --batch : { $number } n'a pas de titre, la pâte est { $formula } ; nommez la préparation dont il s'agit, ou ôtez --batch
uptake-not-in-bath = BATCH : rien de la préparation { $number } n'a été pesé à l'entrée d'un bain ; `evenhand brine in` le fait
