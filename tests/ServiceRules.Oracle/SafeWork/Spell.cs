namespace ServiceRules.Oracle.SafeWork;

/// <summary>One person's hands-on work, from its start to its stop, or on and on where no stop is shown.</summary>
internal sealed record Spell(string Person, Step Start, Step? Stop)
{
    public int End => Stop?.Place ?? int.MaxValue;

    public bool Covers(int place) => Start.Place < place && place < End;

    public bool Overlaps(Spell other) =>
        Person != other.Person && Start.Place < other.End && other.Start.Place < End;
}
