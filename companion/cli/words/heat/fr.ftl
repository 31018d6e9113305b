# Ce qui est relevé de la chaleur, et pourquoi on le surveille.
heat-watched-for = { $name } est sous surveillance : { $words }.
heat-aim-needed = Il faut --from et --to, ou --limit : que surveiller ?
