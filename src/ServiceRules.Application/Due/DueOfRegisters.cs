using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Due;

/// <summary>What the registers of a site say falls due: training, inspections of procedures, what these found.</summary>
public static class DueOfRegisters
{
    /// <param name="site">The registers.</param>
    /// <param name="book">The rules in force: whether they ask for an inspection each year.</param>
    /// <param name="today">The day at the site: who has left by then and what is not in force on it is not told.</param>
    public static ImmutableArray<DueThing> Of(SiteRegisters site, RuleBook book, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(book);
        var isYearly = AsksYearly(book, today);
        return
        [
            .. site.People.SelectMany(person => Training(site.Name, person, today)),
            .. site
                .Procedures.Where(procedure => IsInForce(procedure, today))
                .SelectMany(procedure =>
                    Inspection(site.Name, procedure, isYearly).Concat(Findings(site.Name, procedure))
                ),
        ];
    }

    private static IEnumerable<DueThing> Training(string site, RegisteredPerson person, DateOnly today)
    {
        if (
            person is { Authorised: true, TrainedUntil: { } until }
            && (person.Left is not { } left || today <= left)
        )
        {
            yield return new(site, DueKind.Training, person.Id.Text, until, DueSource.Register)
            {
                Person = person.Id.Text,
            };
        }
    }

    // Without any date nothing falls due on a day: that there was never an inspection, the rule says on each job.
    private static IEnumerable<DueThing> Inspection(string site, Procedure procedure, bool isYearly)
    {
        if (
            isYearly
            && procedure.YearlyInspectionDue is { } year
            && (procedure.InspectionDue is not { } said || year < said)
        )
        {
            yield return new(site, DueKind.Inspection, procedure.Id.Text, year, DueSource.Rules);
        }
        else if (procedure.InspectionDue is { } due)
        {
            yield return new(site, DueKind.Inspection, procedure.Id.Text, due, DueSource.Register);
        }
    }

    private static IEnumerable<DueThing> Findings(string site, Procedure procedure) =>
        (procedure.Inspection?.Findings ?? [])
            .Where(finding => finding is { Closed: null, Due: not null })
            .Select(finding => new DueThing(
                site,
                DueKind.InspectionFinding,
                procedure.Id.Text,
                finding.Due!.Value,
                DueSource.Register
            )
            {
                About = finding.Id,
                Person = finding.About?.Text,
            });

    private static bool IsInForce(Procedure procedure, DateOnly day) =>
        (procedure.From is not { } from || from <= day) && (procedure.Until is not { } until || day <= until);

    private static bool AsksYearly(RuleBook book, DateOnly day) =>
        book
            .Packs.SelectMany(pack => pack.Rules)
            .Any(rule =>
                rule.Check is Check.EnergyControl { Of: EnergyDuty.ProcedureInspected }
                && (rule.When.From is not { } from || from <= day)
                && (rule.When.Until is not { } until || day <= until)
            );
}
