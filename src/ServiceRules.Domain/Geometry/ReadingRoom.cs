using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>Between what a reading has to lie for a line through it to keep within limits at some place.</summary>
/// <param name="Least">The least that it may be, or none where it does not matter.</param>
/// <param name="Greatest">The greatest that it may be, or none where it does not matter.</param>
public sealed record ReadingRoom(Length? Least, Length? Greatest);
