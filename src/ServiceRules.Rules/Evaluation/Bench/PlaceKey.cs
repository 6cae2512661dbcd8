using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>A place on a unit: a distance from the left end (none: one place, or the whole width) and a blade.</summary>
internal readonly record struct PlaceKey(Length? Station, int? Blade) : IComparable<PlaceKey>
{
    public int CompareTo(PlaceKey other)
    {
        var byStation = Nullable.Compare(Station, other.Station);
        return byStation != 0 ? byStation : Nullable.Compare(Blade, other.Blade);
    }
}
