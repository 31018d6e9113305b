# Comptes qui descendent pendant un service, et la relève.
counts-heading = Relève
counts-none = Rien de pesé encore pour ce service
counts-touch = Prêtes ; touchez ce qui part
counts-ready = { $dish } : { $count }
counts-about = servies { $out }, pesées { $weighed }
counts-about-more = servies { $out }, pesées { $weighed }, à peser { $more }
counts-take-back = Reprendre la dernière
counts-page = Page pour demain
counts-written = La page à imprimer est dans { $path }.
counts-not-written = La page ne peut pas être écrite : { $why }. Rien n'a changé.
counts-more = Plus de plats que de place ici : { $count }. Ils sont sur la page.
counts-nothing-else = Personne n'a encore portionné, et rien ne reste pour demain.
counts-no-dish = Aucun plat à compter. Touchez d'abord un plat.
counts-refused = Portions servies : { $count } ne se compte pas ; on n'en reprend pas plus qu'il n'en est parti.
