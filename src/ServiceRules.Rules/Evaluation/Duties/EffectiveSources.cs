using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The sources of a job: on the machine those of its register and of its procedure together, on the bench those of the
/// bench procedure; and from the entry that says so, each source that came during the job. Where register and procedure
/// both have a source, the procedure's words are taken, and the stricter of what the two say of it.
/// </summary>
public static class EffectiveSources
{
    private static readonly Id<EnergySource> MainsCord = new("mains_cord");

    /// <summary>The sources, those of the procedure first; empty: neither procedure nor register tells any.</summary>
    public static ImmutableArray<EffectiveSource> Of(TimelineReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var frame = reading.Frame;
        var machine = frame.Record.Place == WorkPlace.OnMachine ? MachineOf(frame) : null;
        ImmutableArray<EnergySource> registered = machine?.Sources ?? [];
        ImmutableArray<EnergySource> written = frame.Procedure?.Sources ?? [];
        var sources = ImmutableArray.CreateBuilder<EffectiveSource>();
        sources.AddRange(
            written.Select(source => new EffectiveSource(
                registered.FirstOrDefault(known => known.Id == source.Id) is { } known
                    ? Stricter(source, known)
                    : source,
                null,
                true,
                Has(registered, source.Id)
            ))
        );
        sources.AddRange(
            registered
                .Where(source => !Has(written, source.Id))
                .Select(source => new EffectiveSource(source, null, false, true))
        );
        foreach (var entry in reading.Of(TimelineEventKind.SourceAdded))
        {
            if (
                entry.Event.Source is SourceReference.One { Source: var added }
                && !sources.Any(known => known.Source.Id == added)
            )
            {
                sources.Add(new(Undescribed(added), entry, false, false));
            }
        }

        return sources.ToImmutable();
    }

    /// <summary>The machine as the register has it, or null.</summary>
    public static RegisteredMachine? MachineOf(JobFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        return frame.Context.Machines.FirstOrDefault(machine => machine.Id == frame.Record.Machine.Id);
    }

    /// <summary>The mains cord, else the only source whose isolator takes no lock; null where there is not just one.</summary>
    internal static Id<EnergySource>? OfPlug(TimelineReading reading)
    {
        var open = Of(reading)
            .Where(source => source is { HasIsolator: true, Source.Lockable: false })
            .Select(source => source.Source.Id)
            .ToImmutableArray();
        return open.Contains(MainsCord) ? MainsCord
            : open is [var only] ? only
            : null;
    }

    /// <summary>
    /// Whether it is written down what energy there is at this place of work. A register or a procedure that names no source
    /// at all says nothing.
    /// </summary>
    public static bool AreKnown(TimelineReading reading) => Of(reading).Any(source => source.IsDescribed);

    /// <summary>A source in the procedure's words, with nothing that the register of machines says of its danger left out.</summary>
    private static EnergySource Stricter(EnergySource written, EnergySource known) =>
        written with
        {
            Isolator = written.Isolator ?? known.Isolator,
            Lockable = written.Lockable || known.Lockable,
            Stored = written.Stored || known.Stored,
            Reaccumulates = written.Reaccumulates || known.Reaccumulates,
            RecheckMinutes =
                written.RecheckMinutes < known.RecheckMinutes
                    ? written.RecheckMinutes
                    : known.RecheckMinutes ?? written.RecheckMinutes,
            RecheckLimit =
                written.RecheckLimit is { } limit && !(known.RecheckLimit < limit)
                    ? limit
                    : known.RecheckLimit,
            Release = written.Release ?? known.Release,
        };

    private static bool Has(ImmutableArray<EnergySource> sources, Id<EnergySource> id) =>
        sources.Any(source => source.Id == id);

    // What nobody describes is taken to need switching off and proving dead; that it takes a lock is not taken.
    private static EnergySource Undescribed(Id<EnergySource> id) =>
        new()
        {
            Id = id,
            Title = id.Text.Replace('_', ' '),
            Isolator = "its isolating device",
            Proof = "proven dead",
        };
}
