namespace ServiceRules.Domain.Timeline;

/// <summary>A moment at which the wall clocks of a zone were or will be moved.</summary>
/// <param name="At">The first moment of the new offset.</param>
/// <param name="OffsetMinutes">How far clocks are ahead of UTC from then on.</param>
public readonly record struct ZoneTransition(Moment At, int OffsetMinutes);
