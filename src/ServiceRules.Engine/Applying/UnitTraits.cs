using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Applying;

/// <summary>What applicability may ask about one unit. Units with the same <see cref="Key"/> answer alike.</summary>
public sealed class UnitTraits
{
    internal UnitTraits(UnitFrame unit)
    {
        Sheet = unit.Sheet;
        School = unit.School;
        Attachments = Distinct(unit.Work.Attachments);
        Turned = Distinct(unit.Work.Entries.OfType<Adjustment>().Select(entry => entry.Adjuster));
        Read = Distinct(unit.Work.Entries.OfType<Reading>().Select(entry => entry.Quantity));
        var places = PlacesRead.Of(unit.Work.Entries, Sheet);
        ReadAlong = Distinct(
            unit.Work.Entries.OfType<Reading>()
                .GroupBy(entry => entry.Quantity)
                .Where(readings => IsReadAlong(readings, places))
                .Select(alike => alike.Key)
        );
        StillRead = Distinct(
            unit.Known.Where(known => known.Left.Any(place => place.State is not KnownState.Stale))
                .Select(known => known.Quantity)
        );
        IsGround = unit.Work.Entries.OfType<Grinding>().Any();
        Tasks = Distinct(unit.Tasks);
        Key =
            $"{Sheet.Id}|{School}|{string.Join(',', Tasks)}|{string.Join(',', Attachments)}"
            + $"|{string.Join(',', Turned)}|{string.Join(',', Read)}|{string.Join(',', ReadAlong)}"
            + $"|{string.Join(',', StillRead)}|{IsGround}";
    }

    /// <summary>The sheet that it is held to.</summary>
    public LimitSheet Sheet { get; }

    /// <summary>The school in force for it, if one is.</summary>
    public ContactSchool? School { get; }

    /// <summary>Its own tasks, or the job's.</summary>
    public ImmutableArray<ServiceTask> Tasks { get; }

    /// <summary>What is fitted.</summary>
    public ImmutableArray<Attachment> Attachments { get; }

    /// <summary>What was turned on it.</summary>
    public ImmutableArray<AdjusterKind> Turned { get; }

    /// <summary>What was read on it.</summary>
    public ImmutableArray<MeasuredQuantity> Read { get; }

    /// <summary>What was read at two places or more along its width.</summary>
    public ImmutableArray<MeasuredQuantity> ReadAlong { get; }

    /// <summary>What was read on it, with something that no later work made void.</summary>
    public ImmutableArray<MeasuredQuantity> StillRead { get; }

    /// <summary>Whether metal was removed.</summary>
    public bool IsGround { get; }

    internal string Key { get; }

    internal bool Satisfies(Applicability when) => Answers(when).All(answer => answer.Holds);

    /// <summary>One answer for each part that is asked.</summary>
    internal IEnumerable<PartAnswer> Answers(Applicability when)
    {
        if (!when.Sheets.IsEmpty)
        {
            yield return new(AskedPart.Sheets, when.Sheets.Contains(Sheet.Id.Text, StringComparer.Ordinal));
        }

        if (when.Bedknife is { } bedknife)
        {
            yield return new(AskedPart.Bedknife, bedknife == Sheet.Bedknife);
        }

        if (!when.Attachments.IsEmpty)
        {
            yield return new(AskedPart.Attachments, when.Attachments.All(Attachments.Contains));
        }

        if (when.School is { } school)
        {
            yield return new(AskedPart.School, school == School);
        }

        if (!when.AnyTurned.IsEmpty)
        {
            yield return new(AskedPart.AnyTurned, when.AnyTurned.Any(Turned.Contains));
        }

        if (!when.AnyRead.IsEmpty)
        {
            yield return new(AskedPart.AnyRead, when.AnyRead.Any(Read.Contains));
        }

        if (!when.AnyReadAlong.IsEmpty)
        {
            yield return new(AskedPart.AnyReadAlong, when.AnyReadAlong.Any(ReadAlong.Contains));
        }

        if (when.Ground is { } ground)
        {
            yield return new(AskedPart.Ground, ground == IsGround);
        }

        if (when.SheetStates is { } quantity)
        {
            yield return new(AskedPart.SheetStates, Sheet.Of(quantity) is not null);
        }
    }

    private static bool IsReadAlong(IEnumerable<Reading> readings, PlacesRead places) =>
        readings
            .Where(entry => entry.Observed is Observation.Measured or Observation.FeelerTest)
            .Select(places.Of)
            .OfType<Length>()
            .Distinct()
            .Skip(1)
            .Any();

    internal static ImmutableArray<T> Distinct<T>(IEnumerable<T> values)
        where T : struct, Enum => [.. values.Distinct().Order()];
}
