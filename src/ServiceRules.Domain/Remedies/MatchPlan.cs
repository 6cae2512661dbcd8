using System.Collections.Immutable;

namespace ServiceRules.Domain.Remedies;

/// <summary>Which units to move, and where everything then stands.</summary>
/// <param name="Settings">One for each unit, in the order of the task.</param>
public sealed record MatchPlan(ImmutableArray<MatchSetting> Settings)
{
    /// <summary>How many units are moved.</summary>
    public int Moved => Settings.Count(setting => setting.IsMoved);

    /// <summary>How many steps are turned, of adjusters that turn in steps.</summary>
    public int Steps => Settings.Sum(setting => setting.Steps);
}
