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
counts-nothing-else = Personne n'a encore portionné, et rien ne reste pour demain.
counts-no-dish = Aucun plat à compter. Touchez d'abord un plat.
counts-refused = Portions servies : { $count } ne se compte pas ; on n'en reprend pas plus qu'il n'en est parti.
counts-opening = Prêt à l'ouverture
counts-opening-touch = Touchez ce que vous comptez
counts-opening-none = Aucun plat n'est encore sur la liste
counts-opening-not-said = pas compté
counts-opening-ready =
    { $count ->
        [one] une portion
       *[other] { $count } portions
    }
counts-opening-about = Portions laissées par le service d'avant et qui peuvent partir aujourd'hui. Ce qui est pesé aujourd'hui se compte tout seul : ne le comptez pas ici. Un nouveau compte remplace le précédent.
counts-opening-caution = Ne comptez que ce qui est encore dans le temps pendant lequel cette cuisine le garde.
