using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Two tries of one place, or two looks at it, that cannot both be true, with nothing turned between. Trying again does not settle
/// which was wrong: whoever wants another answer would only have to try until it comes out twice.
/// </summary>
/// <param name="Earlier">What was noted first, in words.</param>
/// <param name="EarlierAt">When, if it was noted.</param>
/// <param name="Later">What was noted later, in words.</param>
/// <param name="LaterAt">When, if it was noted.</param>
public sealed record Contradiction(
    string Earlier,
    RecordedTime? EarlierAt,
    string Later,
    RecordedTime? LaterAt
)
{
    /// <summary>What settles it.</summary>
    internal const string WhatSettlesIt =
        "trying again settles nothing: set it anew and try it then, or take back the one that was a slip, with the reason (withdrawn)";

    /// <summary>What settles contact that was noted where a gap was read.</summary>
    internal const string WhatSettlesAGap =
        "contact and a gap cannot both be: look again which of them is so, before anything is turned; take back a reading that was a slip, with the reason (withdrawn), or set it anew and try it then";

    /// <summary>What was noted in two ways, the place not named.</summary>
    public string Words =>
        $"{Earlier}{Time(EarlierAt)}, then {Later}{Time(LaterAt)}, with nothing turned between";

    /// <summary>As the clock showed it; of other days the day too.</summary>
    private static string Time(RecordedTime? at) => at is null ? string.Empty : $" (at {at.Text[TimeOfDay]})";

    private static Range TimeOfDay => 11..16;
}
