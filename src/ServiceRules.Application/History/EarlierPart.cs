using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>A reel or bedknife that was in a unit before.</summary>
/// <param name="Part">Its identity; null when no record names it.</param>
/// <param name="Kind">Reel or bedknife.</param>
/// <param name="Until">The day of its last job in the unit.</param>
/// <param name="Size">Its diameter or lip as last read; null: never.</param>
/// <param name="System">The units that it was read in.</param>
public sealed record EarlierPart(
    string? Part,
    PartKind Kind,
    DateOnly Until,
    Length? Size,
    UnitSystem System
);
