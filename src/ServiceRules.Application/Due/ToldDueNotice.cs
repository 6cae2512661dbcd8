namespace ServiceRules.Application.Due;

/// <summary>What a recipient is told of something that falls due.</summary>
/// <param name="Site">The site.</param>
/// <param name="Kind">What.</param>
/// <param name="Subject">The gauge, the procedure or the unit; null: it is about a person.</param>
/// <param name="Due">The last day on which it is in time.</param>
/// <param name="At">When it was found.</param>
public sealed record ToldDueNotice(
    string Site,
    DueKind Kind,
    string? Subject,
    DateOnly Due,
    DateTimeOffset At
)
{
    /// <summary>Of a person it is told that there is one.</summary>
    public static ToldDueNotice Of(DueThing thing, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(thing);
        return new(
            thing.Site,
            thing.Kind,
            thing.Kind is DueKind.Training ? null : thing.Subject,
            thing.Due,
            at
        );
    }
}
