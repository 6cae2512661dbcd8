using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Model;

/// <summary>The screw of an adjuster, from which a distance is told as turns.</summary>
/// <param name="Pitch">Advance of the screw by one turn, as printed.</param>
/// <param name="Ratio">
/// Change of the quantity per advance of the screw, a pure number; 1 when it acts directly. Absent: not measured, to be
/// learned from two settings.
/// </param>
/// <param name="Parts">Into how many parts a turn is told apart by eye or by notches.</param>
public sealed record AdjusterThread(PrintedLength Pitch, decimal? Ratio, int Parts);
