using System.Globalization;

namespace ServiceRules.Application.Due;

/// <summary>Something that falls due.</summary>
/// <param name="Site">The site.</param>
/// <param name="Kind">What.</param>
/// <param name="Subject">The gauge, the person, the procedure or the unit, as register or records name it.</param>
/// <param name="Due">The last day on which it is in time.</param>
/// <param name="Source">What says so.</param>
public sealed record DueThing(string Site, DueKind Kind, string Subject, DateOnly Due, DueSource Source)
{
    /// <summary>Which size of a unit, or which finding of an inspection; else empty.</summary>
    public string About { get; init; } = "";

    /// <summary>The reel or bedknife that wears, where records name it.</summary>
    public string? Part { get; init; }

    /// <summary>The machine of a unit.</summary>
    public string? Machine { get; init; }

    /// <summary>Whose work it is about, as the register names them.</summary>
    public string? Person { get; init; }

    /// <summary>The stored record that says it, or the last one that it was reckoned from.</summary>
    public string? Record { get; init; }

    /// <summary>Whether the day is a forecast, which moves with each job.</summary>
    public bool IsForecast { get; init; }

    /// <summary>Whether it is due whatever the day: the limit was come to. The day is that of the reading.</summary>
    public bool IsReached { get; init; }

    /// <summary>Days that are left; negative: days since it was due.</summary>
    public int DaysLeft(DateOnly today) => Due.DayNumber - today.DayNumber;

    public bool IsOverdue(DateOnly today) => IsReached || Due < today;

    /// <summary>Whether it is due within so many days.</summary>
    public bool IsWithin(DateOnly today, int days) => IsReached || DaysLeft(today) <= days;

    /// <summary>
    /// What somebody is told of once: the thing and its day. A forecast moves with each job and is told of anew when it comes to
    /// another month; what was come to is told of once in each month in which it still
    /// stands, so that it is told of again after it was put right and came back.
    /// </summary>
    public string ToldAs =>
        string.Join(
            '\n',
            Site,
            DueWords.Of(Kind),
            Subject,
            About,
            Part,
            IsReached ? "reached " + Due.ToString("yyyy-MM", CultureInfo.InvariantCulture)
                : IsForecast ? Due.ToString("yyyy-MM", CultureInfo.InvariantCulture)
                : Due.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        );
}
