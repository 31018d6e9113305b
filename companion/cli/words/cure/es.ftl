# Agentes de curado: cuánto entra, y la dosis.
cure-verdict = { $verdict ->
    [over] { $method }: por encima del límite
    [under] { $method }: por debajo de lo exigido
   *[close] { $method }: demasiado cerca del límite
}
cure-reckoned = { $method }: { $reckoning }
cure-contents-unsaid = calculado para un agente con solo nitrito sódico, ya que no se indicó otra cosa; uno que lleve también nitrato no debe usarse así: indique --contents
cure-weigh = pese { $mass } g de { $agent }
cure-scale-unchecked = no se comprobó si la báscula es lo bastante buena para esto: indique --scale-e o --scale-within
cure-limit = { $method }: { $limit }, según { $source }

# Lo que se escribió.
cure-agent-refused = --agent: { $why }
cure-fraction-refused = --nitrite-fraction: { $why } (véase --nitrite-fraction-again)
cure-contents-refused = --contents: { $why }
cure-method-needed = Hace falta --method: ¿cómo se cura la carne? escriba uno de { $names }
cure-no-limit = --method: no hay ningún límite en vigor para { $method }
cure-dose-refused = { $why }
cure-too-small = { $flag }: { $why }
cure-too-small-noted = { $flag }: { $why }; { $note }
