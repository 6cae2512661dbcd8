using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Puts a procedure that the shop has written into the form of the registers, from the sources that its machines are registered
/// with. Of an example nothing gets into it, and nobody is said to have inspected it.
/// </summary>
public static class NewProcedure
{
    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="procedure">The procedure; without sources it gets those of its machines.</param>
    /// <param name="replaced">The one that it takes the place of, which is in force until the day before; null: none.</param>
    public static AuthoringOutcome Run(
        LoadedRules rules,
        Procedure procedure,
        Placed<Procedure>? replaced = null
    )
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(procedure);
        var machines = Registered.Machines(rules);
        var known = procedure
            .Machines.Select(id => machines.Find(id.Text))
            .OfType<RegisteredMachine>()
            .ToList();
        var whole =
            procedure.Sources.IsEmpty && known.Count > 0
                ? procedure with
                {
                    Sources = known[0].Sources,
                }
                : procedure;
        using var draft = FolderDraft.Of(rules.Folder);
        var file = $"{draft.SiteFolder}/procedures/{procedure.Id}.json";
        ImmutableArray<string> against =
        [
            .. Standing(rules, procedure, draft.Has(file) ? file : null),
            .. Machines(machines, procedure, known),
            .. Sources(whole),
            .. LeftOut(whole, known),
            .. Replaced(whole, replaced?.Value),
        ];
        if (!against.IsEmpty)
        {
            return new AuthoringOutcome.Refused(against);
        }

        draft.Put(file, whole, SiteFormat.Procedure);
        if (replaced is not null && whole.From is { } first)
        {
            draft.Put(replaced.File, replaced.Value with { Until = first.AddDays(-1) }, SiteFormat.Procedure);
        }

        return draft.Keep(rules.Diagnostics);
    }

    private static IEnumerable<string> Standing(LoadedRules rules, Procedure procedure, string? file)
    {
        var standing =
            rules.Library.Procedures.FirstOrDefault(one => one.Value.Id == procedure.Id)?.File ?? file;
        if (standing is not null)
        {
            yield return $"ID: there is a procedure `{procedure.Id}` in {standing}; accepted: another identity, such as one with the next number; what was in force is not written over";
        }
    }

    private static IEnumerable<string> Machines(
        Registered<RegisteredMachine> machines,
        Procedure procedure,
        List<RegisteredMachine> known
    )
    {
        if (procedure.Place is WorkPlace.OnMachine)
        {
            foreach (var id in procedure.Machines.Where(id => machines.Find(id.Text) is null))
            {
                yield return $"--machine: there is no machine `{id}` in the register; accepted: {machines.Names}";
            }
        }

        // One text for machines that are not alike would leave a source of one of them out.
        foreach (
            var other in known.Skip(1).Where(other => !IsAlike(other, known[0]) && procedure.Sources.IsEmpty)
        )
        {
            yield return $"--machine: `{other.Id}` is registered with other sources, or with other words for them, than `{known[0].Id}`; accepted: a procedure for each, or the sources given with --source";
        }
    }

    // Jobs of its days are judged by it.
    private static IEnumerable<string> Replaced(Procedure procedure, Procedure? replaced)
    {
        if (replaced is { Until: { } until } && until < procedure.From)
        {
            yield return FormattableString.Invariant(
                $"--replaces: `{replaced.Id}` is in force until {until:yyyy-MM-dd} as it stands; accepted: a procedure that is in force on {procedure.From:yyyy-MM-dd}, or to leave it out"
            );
        }
        else if (replaced is not null && replaced.From >= procedure.From)
        {
            yield return FormattableString.Invariant(
                $"--replaces: `{replaced.Id}` is not in force before {procedure.From:yyyy-MM-dd}; accepted: a later --from"
            );
        }
    }

    private static bool IsAlike(RegisteredMachine one, RegisteredMachine other) =>
        one.Sources.OrderBy(source => source.Id).SequenceEqual(other.Sources.OrderBy(source => source.Id));

    // On its own a machine has every source it is registered with; a unit on the bench has others.
    private static IEnumerable<string> LeftOut(Procedure procedure, List<RegisteredMachine> known) =>
        from machine in known
        where procedure.Place is WorkPlace.OnMachine && !procedure.Sources.IsEmpty
        let left = machine
            .Sources.Where(source => procedure.Sources.All(one => one.Id != source.Id))
            .Select(source => $"`{source.Id}`")
            .ToList()
        where left.Count > 0
        select $"--source: {string.Join(", ", left)} of `{machine.Id}` is left out; accepted: each source that the machine is registered with, or no --source, which takes them all as they are registered";

    private static IEnumerable<string> Sources(Procedure procedure)
    {
        if (procedure.Sources.IsEmpty)
        {
            yield return "--source is not given: what could move or hurt; accepted: `--source \"gravity proof=...\"`, or a machine of the register";
        }

        foreach (var source in procedure.Sources.Where(MachineExamples.IsTakenOver))
        {
            yield return $"`{source.Id}`: its words are those of an example; accepted: isolator, release and proof as this machine's own manual has them, with `rules new machine {procedure.Machines[0]} --change --source \"{source.Id} proof=...\"`: a procedure says nothing that nobody read";
        }
    }
}
