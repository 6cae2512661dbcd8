namespace ServiceRules.Application.History;

/// <summary>Visits by day, then by hour meter, then by the identity of the record.</summary>
internal sealed class VisitOrder : IComparer<UnitVisit>
{
    public static VisitOrder Instance { get; } = new();

    public int Compare(UnitVisit? x, UnitVisit? y)
    {
        ArgumentNullException.ThrowIfNull(x);
        ArgumentNullException.ThrowIfNull(y);
        var byDay = x.Day.CompareTo(y.Day);
        var byHours =
            byDay == 0 && x.Machine.Id == y.Machine.Id && x.Hours is { } hours && y.Hours is { } other
                ? hours.CompareTo(other)
                : byDay;
        return byHours != 0 ? byHours : x.Record.CompareTo(y.Record);
    }
}
