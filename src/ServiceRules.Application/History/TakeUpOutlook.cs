using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>How fast the clearance of a unit had to be taken up. Trade knowledge, no source found.</summary>
/// <param name="Since">The day that is counted from.</param>
/// <param name="SetAnew">Whether the clearance was set anew that day: ground, or a part fitted.</param>
/// <param name="StepsIn">Steps turned in less steps turned out since, mean of both sides.</param>
/// <param name="Hours">Hours run since.</param>
/// <param name="Rate">Take-up in an hour since.</param>
/// <param name="Own">Held against the unit's own rates before it was set anew; null with fewer than three or where it needs next to none.</param>
/// <param name="IsSignal">The unit is taken up much faster than it used to be: dull, or something gives.</param>
/// <param name="OddOne">
/// Times the usual of its neighbours on the machine, where it is the odd one out: then bearing, frame or an impact.
/// </param>
public sealed record TakeUpOutlook(
    DateOnly Since,
    bool SetAnew,
    decimal StepsIn,
    RunningTime Hours,
    WearRate Rate,
    TakeUp? Own,
    bool IsSignal,
    decimal? OddOne
);
