using ServiceRules.Application.Due;

namespace ServiceRules.Host.Due;

/// <summary>Something that falls due.</summary>
/// <param name="Kind">calibration, training, inspection, inspection-finding, wear or relief.</param>
/// <param name="Subject">The gauge, the person, the procedure or the unit, as register and records name it.</param>
/// <param name="About">Which size of the unit, or which finding of the inspection.</param>
/// <param name="Part">The reel or bedknife that wears.</param>
/// <param name="Machine">The machine of the unit.</param>
/// <param name="Person">Whose work it is about.</param>
/// <param name="Due">The last day on which it is in time; where the limit was reached the day of the reading.</param>
/// <param name="DaysLeft">Days until then; negative: days since.</param>
/// <param name="Overdue">Whether the day is past, or the limit reached.</param>
/// <param name="Reached">Whether a limit was come to.</param>
/// <param name="Forecast">Whether the day is a forecast, which moves with each job.</param>
/// <param name="Source">register, rules, record or history: what says so.</param>
/// <param name="Record">The stored record that says it, or the last one that it was reckoned from.</param>
/// <param name="Site">The site.</param>
public sealed record ToldDue(
    string Kind,
    string Subject,
    string? About,
    string? Part,
    string? Machine,
    string? Person,
    DateOnly Due,
    int DaysLeft,
    bool Overdue,
    bool Reached,
    bool Forecast,
    string Source,
    string? Record,
    string Site
)
{
    internal static ToldDue Of(DueThing thing, DateOnly today) =>
        new(
            DueWords.Of(thing.Kind),
            thing.Subject,
            thing.About.Length == 0 ? null : thing.About,
            thing.Part,
            thing.Machine,
            thing.Person,
            thing.Due,
            thing.DaysLeft(today),
            thing.IsOverdue(today),
            thing.IsReached,
            thing.IsForecast,
            DueWords.Of(thing.Source),
            thing.Record,
            thing.Site
        );
}
