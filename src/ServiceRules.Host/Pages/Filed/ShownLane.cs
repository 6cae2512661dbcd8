namespace ServiceRules.Host.Pages.Filed;

/// <summary>What a lane belongs to.</summary>
public enum LaneKind
{
    /// <summary>Somebody of the job.</summary>
    Person,

    /// <summary>A source of energy.</summary>
    Source,

    /// <summary>A lock or tag.</summary>
    Lock,
}

/// <summary>One lane of a timeline.</summary>
/// <param name="Name">Whose it is.</param>
/// <param name="Begins">Whether another kind of lane stands before it.</param>
public sealed record ShownLane(LaneKind Kind, string Name, bool Begins);

/// <summary>What a lane shows beside one entry.</summary>
/// <param name="Look">Classes of its drawing.</param>
/// <param name="Told">The same in words; empty: nothing.</param>
public sealed record LaneCell(string Look, string Told);

/// <summary>One entry of a timeline, with what each lane shows beside it.</summary>
public sealed record LaneRow(string When, string What, IReadOnlyList<LaneCell> Cells);
