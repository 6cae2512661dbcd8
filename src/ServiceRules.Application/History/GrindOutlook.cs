using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.History;

/// <summary>Hours since a unit was last made sharp, and hours to the next time. Interval as stated by the site.</summary>
/// <param name="Since">The day it was last ground; null: not in these records.</param>
/// <param name="Hours">Hours since then, or since the first record.</param>
/// <param name="Every">The interval stated; null: none.</param>
/// <param name="DueIn">Hours left; negative: overdue. Null without an interval.</param>
/// <param name="On">The day that falls on, at the hours a week seen.</param>
public sealed record GrindOutlook(
    DateOnly? Since,
    RunningTime Hours,
    RunningTime? Every,
    RunningTime? DueIn,
    DateOnly? On
);
