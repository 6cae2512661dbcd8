using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>The site's registers name sheets, schools, rules, people and packs that are there.</summary>
internal static class RegisterCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var people = new KnownPeople(library);
        foreach (var order in library.Orders)
        {
            Targets(order, library, remarks);
            Schools(order, library, remarks);
            Mowing(order, library, remarks);
            Person(order, "/by", order.Value.By.Text, people, remarks);
            Entitled(order, order.Value.By.Text, "order anything", people, remarks);
        }

        MachineAreas(library, remarks);
        Waivers(library, people, remarks);
        Procedures(library, remarks);
        foreach (var procedure in library.Procedures)
        {
            Vouched(procedure, people, remarks);
        }

        foreach (var device in library.Locks)
        {
            Person(device, "/owner", device.Value.Owner?.Text, people, remarks);
        }

        var known = library
            .Packs.Where(pack => pack.Pack.Layer is PackLayer.Jurisdiction)
            .Select(pack => pack.Pack.Id.Text)
            .ToList();
        foreach (var named in library.Jurisdictions)
        {
            if (!known.Contains(named.Value))
            {
                remarks.Error(
                    DiagnosticCode.UnknownJurisdiction,
                    named,
                    "",
                    $"there is no jurisdiction pack `{named.Value}`",
                    KnownNames.Of(known, "a pack of the jurisdiction layer")
                );
            }
        }
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static void Targets(Placed<SettingOrder> order, RuleLibrary library, Remarks remarks)
    {
        for (var index = 0; index < order.Value.Targets.Length; index++)
        {
            var target = order.Value.Targets[index];
            var at = FormattableString.Invariant($"/targets/{index}");
            if (
                target.Sheet is not { } named
                || Sheet(order, at + "/sheet", named, library, remarks) is not { } sheet
            )
            {
                continue;
            }

            var limit = sheet.Of(target.Quantity);
            var system = target.Target.System;
            if (
                target.Target.Value < limit?.Lower?.In(system)
                || target.Target.Value > limit?.Upper?.In(system)
            )
            {
                remarks.Error(
                    DiagnosticCode.TargetOutside,
                    order,
                    at + "/target",
                    $"limit sheet `{named}` does not reach `{target.Target}`",
                    $"from {limit?.Lower?.ToString() ?? "nothing"} to {limit?.Upper?.ToString() ?? "any height"}"
                );
            }
        }
    }

    private static void Schools(Placed<SettingOrder> order, RuleLibrary library, Remarks remarks)
    {
        for (var index = 0; index < order.Value.Schools.Length; index++)
        {
            var choice = order.Value.Schools[index];
            var at = FormattableString.Invariant($"/schools/{index}");
            if (
                Sheet(order, at + "/sheet", choice.Sheet, library, remarks)?.Of(MeasuredQuantity.Clearance)
                    is { } limit
                && !limit.Schools.Any(taught => taught.School == choice.School)
            )
            {
                remarks.Error(
                    DiagnosticCode.SchoolNotTaught,
                    order,
                    at + "/school",
                    $"limit sheet `{choice.Sheet}` does not teach `{FileWord.Of(choice.School)}`",
                    KnownNames.Of(
                        limit.Schools.Select(taught => FileWord.Of(taught.School)),
                        "a school in the sheet's `schools`"
                    )
                );
            }
        }
    }

    /// <summary>Speeds for an area that has no target would be the speeds of nothing.</summary>
    private static void Mowing(Placed<SettingOrder> order, RuleLibrary library, Remarks remarks)
    {
        var areas = library
            .Orders.SelectMany(each => each.Value.Targets)
            .Select(target => target.Area)
            .ToHashSet(StringComparer.Ordinal);
        for (var index = 0; index < order.Value.Mowing.Length; index++)
        {
            var mowing = order.Value.Mowing[index];
            var at = FormattableString.Invariant($"/mowing/{index}");
            if (mowing.Sheet is { } named)
            {
                Sheet(order, at + "/sheet", named, library, remarks);
            }

            if (!areas.Contains(mowing.Area))
            {
                remarks.Error(
                    DiagnosticCode.UnknownArea,
                    order,
                    at + "/area",
                    $"no setting order has a target for the area `{mowing.Area}`",
                    KnownNames.Of(areas, "an area that a setting order has a target for")
                );
            }
        }
    }

    /// <summary>A machine on an area that no order sets anything for is held against nothing.</summary>
    private static void MachineAreas(RuleLibrary library, Remarks remarks)
    {
        var areas = library
            .Orders.SelectMany(each => each.Value.Targets)
            .Select(target => target.Area)
            .ToHashSet(StringComparer.Ordinal);
        foreach (var machine in library.Machines)
        {
            for (var index = 0; index < machine.Value.Areas.Length; index++)
            {
                if (areas.Count > 0 && !areas.Contains(machine.Value.Areas[index]))
                {
                    remarks.Error(
                        DiagnosticCode.UnknownArea,
                        machine,
                        FormattableString.Invariant($"/areas/{index}"),
                        $"no setting order has a target for the area `{machine.Value.Areas[index]}`",
                        KnownNames.Of(areas, "an area that a setting order has a target for")
                    );
                }
            }
        }
    }

    private static LimitSheet? Sheet<T>(
        Placed<T> at,
        string below,
        string named,
        RuleLibrary library,
        Remarks remarks
    )
        where T : notnull
    {
        var sheet = library.Sheets.Select(placed => placed.Value).FirstOrDefault(one => one.Id.Text == named);
        if (sheet is null)
        {
            remarks.Error(
                DiagnosticCode.UnknownSheet,
                at,
                below,
                $"there is no limit sheet `{named}`",
                KnownNames.Of(library.Sheets.Select(one => one.Value.Id.Text), "a limit sheet of this folder")
            );
        }

        return sheet;
    }

    private static void Entitled<T>(
        Placed<T> at,
        string person,
        string what,
        KnownPeople people,
        Remarks remarks
    )
        where T : notnull
    {
        if (people.Has(person) && !people.MayRelease(person))
        {
            remarks.Error(
                DiagnosticCode.MayNotRelease,
                at,
                "/by",
                $"the register does not let `{person}` {what}",
                people.WhoMayRelease
            );
        }
    }

    /// <summary>The waivers alone.</summary>
    public static void Waivers(RuleLibrary library, Remarks remarks) =>
        Waivers(library, new KnownPeople(library), remarks);

    private static void Waivers(RuleLibrary library, KnownPeople people, Remarks remarks)
    {
        var rules = library.Rules.Select(rule => rule.Value.Id.Text).ToHashSet(StringComparer.Ordinal);
        var meant = new MeantName(rules, "a rule of this folder");
        foreach (var waiver in library.Waivers)
        {
            Person(waiver, "/by", waiver.Value.By.Text, people, remarks);
            Entitled(waiver, waiver.Value.By.Text, "waive anything", people, remarks);
            // An order may be given ahead of the season; a waiver is of the day from which somebody answers for it.
            if (people.Left(waiver.Value.By.Text) is { } left && left < waiver.Value.From)
            {
                remarks.Error(
                    DiagnosticCode.MayNotRelease,
                    waiver,
                    "/by",
                    $"`{waiver.Value.By}` had left by {Day(waiver.Value.From)}, from which this waives anything",
                    $"somebody still there, or a day until {Day(left)}"
                );
            }

            if (!rules.Contains(waiver.Value.Rule))
            {
                remarks.Error(
                    DiagnosticCode.UnknownRule,
                    waiver,
                    "/rule",
                    $"there is no rule `{waiver.Value.Rule}` to waive",
                    meant.Of(waiver.Value.Rule)
                );
            }
        }
    }

    /// <summary>
    /// For a machine at a place there is one written procedure on any day: with two, it would be chance which one judges.
    /// </summary>
    private static void Procedures(RuleLibrary library, Remarks remarks)
    {
        var known = new Dictionary<string, List<Procedure>>(StringComparer.Ordinal);
        foreach (var procedure in library.Procedures)
        {
            for (var index = 0; index < procedure.Value.Machines.Length; index++)
            {
                var machine = procedure.Value.Machines[index].Text;
                if (!known.TryGetValue(machine, out var written))
                {
                    known[machine] = written = [];
                }

                var other = written.Find(one => MeetOnSomeDay(one, procedure.Value));
                written.Add(procedure.Value);
                if (other is not null)
                {
                    remarks.Error(
                        DiagnosticCode.ProcedureTwice,
                        procedure,
                        FormattableString.Invariant($"/machines/{index}"),
                        $"procedure `{other.Id}` is written for machine `{machine}` at this place already",
                        "one procedure in force for each machine and place on any day"
                    );
                }
            }
        }
    }

    /// <summary>Whoever inspected a procedure, was inspected with it or approved a task on the live machine is somebody.</summary>
    private static void Vouched(Placed<Procedure> procedure, KnownPeople known, Remarks remarks)
    {
        if (procedure.Value.Inspection is { } inspection)
        {
            Person(procedure, "/inspection/inspector", inspection.Inspector?.Text, known, remarks);
            People(procedure, "/inspection/people", inspection.People, known, remarks);
            People(procedure, "/inspection/users", inspection.Users, known, remarks);
            for (var index = 0; index < inspection.Findings.Length; index++)
            {
                var at = FormattableString.Invariant($"/inspection/findings/{index}/about");
                Person(procedure, at, inspection.Findings[index].About?.Text, known, remarks);
            }
        }

        for (var index = 0; index < procedure.Value.EnergisedTasks.Length; index++)
        {
            var at = FormattableString.Invariant($"/energisedTasks/{index}/approvedBy");
            var task = procedure.Value.EnergisedTasks[index];
            Person(procedure, at, task.ApprovedBy?.Text, known, remarks);
            var operators = FormattableString.Invariant($"/energisedTasks/{index}/operators");
            People(procedure, operators, task.Operators, known, remarks);
        }
    }

    private static void People(
        Placed<Procedure> procedure,
        string below,
        ImmutableArray<Id<Participant>> people,
        KnownPeople known,
        Remarks remarks
    )
    {
        for (var index = 0; index < people.Length; index++)
        {
            Person(
                procedure,
                FormattableString.Invariant($"{below}/{index}"),
                people[index].Text,
                known,
                remarks
            );
        }
    }

    private static bool MeetOnSomeDay(Procedure one, Procedure other) =>
        one.Place == other.Place
        && (one.From ?? DateOnly.MinValue) <= (other.Until ?? DateOnly.MaxValue)
        && (other.From ?? DateOnly.MinValue) <= (one.Until ?? DateOnly.MaxValue);

    private static void Person<T>(
        Placed<T> at,
        string below,
        string? named,
        KnownPeople people,
        Remarks remarks
    )
        where T : notnull
    {
        if (named is not null && !people.Has(named))
        {
            remarks.Error(
                DiagnosticCode.UnknownPerson,
                at,
                below,
                $"there is nobody `{named}` in the register",
                people.Listed
            );
        }
    }
}
