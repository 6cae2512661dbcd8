using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>How far to turn a height screw.</summary>
/// <param name="Parts">Signed parts of a turn; positive raises.</param>
/// <param name="PartsPerTurn">Parts in a whole turn.</param>
/// <param name="Predicted">The change of height that this gives, rounded to 1e-12 mm.</param>
public sealed record HeightTurns(int Parts, int PartsPerTurn, Length Predicted);
