using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.History;

/// <summary>How a shield gap went with the reel: it must grow by half of what the diameter lost. Derived.</summary>
/// <param name="Since">The day it was read that is counted from.</param>
/// <param name="GapThen">The gap then.</param>
/// <param name="On">The day it was read since, with nothing turned.</param>
/// <param name="GapRead">The gap then read.</param>
/// <param name="Expected">What the reel's wear makes of the earlier gap.</param>
/// <param name="Doubt">How far both readings may be off together.</param>
/// <param name="System">The units of the readings.</param>
public sealed record ShieldOutlook(
    DateOnly Since,
    Length GapThen,
    DateOnly On,
    Length GapRead,
    Length Expected,
    Length Doubt,
    UnitSystem System
)
{
    /// <summary>Whether the gap follows the reel.</summary>
    public bool Follows => (GapRead - Expected).Abs <= Doubt;

    /// <summary>It is the very figure that was read before, though the reel has gone away from it: copied, perhaps.</summary>
    public bool LooksCopied => !Follows && GapRead == GapThen;
}
