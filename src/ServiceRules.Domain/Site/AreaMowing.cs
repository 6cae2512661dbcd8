using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Site;

/// <summary>The speeds that an area is mown at.</summary>
/// <param name="Area">The area as records name it.</param>
/// <param name="Sheet">Identity text of the limit sheet it is for; absent: every unit on the area.</param>
/// <param name="GroundSpeed">Ground speed.</param>
/// <param name="ReelSpeed">Turns of the reel.</param>
public sealed record AreaMowing(string Area, string? Sheet, Speed GroundSpeed, RotationRate ReelSpeed);
