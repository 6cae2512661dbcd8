using ServiceRules.Domain.Records;

namespace ServiceRules.Oracle;

/// <summary>What was last seen, heard or felt.</summary>
internal static class Sights
{
    /// <summary>Contact over the width: the state, and how it stands; none when nobody noted it.</summary>
    public static (ContactState Contact, SpotState State)? Contact(
        UnitWork unit,
        BenchReplay replay,
        MeasuredQuantity quantity
    ) =>
        Last<ContactState>(
            unit,
            replay,
            quantity,
            o => o is Observation.Contact contact ? contact.State : null,
            fate => fate.IsVoid || fate.Carried.Count > 0,
            once: true
        );

    /// <summary>Contact was noted, and somewhere a length tells a gap: which of them is true is not known.</summary>
    public static bool TouchesBesideAGap(Facts facts, UnitWork unit, MeasuredQuantity quantity) =>
        Contact(unit, new(unit, facts.Book.Sheet(unit.Sheet)!), quantity)
            is { State: SpotState.Known, Contact: not ContactState.None }
        && new Spots(facts, unit, quantity).All.Any(s => s.Tells);

    /// <summary>Sound or not: by eye or hand, and for edges by paper.</summary>
    public static (bool Sound, SpotState State)? Sound(
        UnitWork unit,
        BenchReplay replay,
        MeasuredQuantity quantity,
        Station? station,
        bool paper
    ) =>
        Last<bool>(
            unit with
            {
                Entries =
                [
                    .. unit.Entries.Select(e =>
                        e is Reading r && r.Station != station ? new PartFitted { Part = PartKind.Other } : e
                    ),
                ],
            },
            replay,
            quantity,
            o =>
                o switch
                {
                    Observation.Seen seen when !paper => seen.Condition == Condition.Sound,
                    Observation.Paper strip when paper => strip.Result == PaperResult.Cuts,
                    _ => null,
                },
            fate => fate.IsVoid || (paper && fate.Carried.Count > 0)
        );

    private static (T Value, SpotState State)? Last<T>(
        UnitWork unit,
        BenchReplay replay,
        MeasuredQuantity quantity,
        Func<Observation, T?> read,
        Func<Fate, bool> isVoid,
        bool once = false
    )
        where T : struct
    {
        List<(T Value, bool IsVoid)> seen = [];
        for (int i = 0; i < unit.Entries.Length; i++)
        {
            if (
                unit.Entries[i] is Reading reading
                && reading.Quantity == quantity
                && read(reading.Observed) is { } value
            )
            {
                seen.Add((value, isVoid(replay.After(quantity, i))));
            }
        }

        if (seen.Count == 0)
        {
            return null;
        }

        var standing = seen.Where(s => !s.IsVoid).ToList();
        if (standing.Count == 0)
        {
            return (seen[^1].Value, SpotState.Void);
        }

        var before = once ? standing.SkipLast(1) : standing.SkipLast(1).TakeLast(1);
        bool conflict = before.Any(s => !EqualityComparer<T>.Default.Equals(s.Value, standing[^1].Value));
        return (standing[^1].Value, conflict ? SpotState.Conflicting : SpotState.Known);
    }
}
