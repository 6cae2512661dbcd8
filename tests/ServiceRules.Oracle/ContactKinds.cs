using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Checks of how reel and bedknife were set, and of what touches.</summary>
internal static class ContactKinds
{
    public static Possible Procedure(Facts facts, UnitWork unit, Check.ProceduralLimit check)
    {
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        if (sheet.Of(check.Quantity) is not { Schools: { IsEmpty: false } schools } limit)
        {
            return Possible.Any;
        }

        var school =
            check.Quantity == MeasuredQuantity.Clearance ? facts.School(unit.Sheet)
            : schools.Length == 1 ? schools[0].School
            : null;
        var taught = schools.FirstOrDefault(s => s.School == school);
        var contact = Sights.Contact(unit, new(unit, sheet), check.Quantity);
        bool beside = Sights.TouchesBesideAGap(facts, unit, check.Quantity);
        if (contact is { State: SpotState.Known, Contact: ContactState.Heavy })
        {
            return beside ? Possible.NeverMet : Possible.NotMet;
        }

        if (school is null || taught is null)
        {
            return Possible.Unproven;
        }

        if (school == ContactSchool.LightContact)
        {
            // Contact over the full width and a gap that was read cannot both be.
            bool open = new Spots(facts, unit, check.Quantity).All.Any(s => s.Tells);
            return contact is { State: SpotState.Conflicting } ? Possible.NeverMet
                : contact is not { State: SpotState.Known } known ? Possible.Unproven
                : known.Contact != ContactState.Light ? Possible.NotMet
                : open ? Possible.NeverNotMet
                : Possible.Met;
        }

        if (beside)
        {
            return Possible.NeverMet;
        }

        var touching = contact switch
        {
            { State: SpotState.Known, Contact: not ContactState.None } => Possible.NotMet,
            // Whether all that was noted touches is not asked here.
            { State: SpotState.Conflicting } => Possible.NeverMet,
            _ => Possible.Met,
        };
        var spots = new Spots(facts, unit, check.Quantity);
        // A place beside the stations that was not read again takes the proof, where another rule tells it.
        var elsewhere = spots.All.Any(s => s.State == SpotState.Void) ? Possible.NeverNotMet : Possible.Met;
        return touching
            .And(Station(facts, unit, spots, spots.Left, taught))
            .And(Station(facts, unit, spots, spots.Right, taught))
            .And(elsewhere);
    }

    private static Possible Station(
        Facts facts,
        UnitWork unit,
        Spots spots,
        decimal? at,
        SchoolProcedure taught
    )
    {
        var replay = new BenchReplay(unit, facts.Book.Sheet(unit.Sheet)!);
        List<(decimal Thick, bool Passes)> tries = [];
        bool doubtful = false;
        for (int i = 0; i < unit.Entries.Length; i++)
        {
            if (
                unit.Entries[i] is Reading { Observed: Observation.FeelerTest test } reading
                && reading.Quantity == MeasuredQuantity.Clearance
                && spots.Place(reading.Station) == at
                && replay.After(MeasuredQuantity.Clearance, i) is { IsVoid: false } fate
            )
            {
                doubtful |=
                    fate.Carried.Count > 0
                    || reading.Blade is not null
                    || Gauges.IsUnfit(reading, facts)
                    || test.Feelers.Length > 1;
                tries.Add((test.Feelers.Sum(f => f.Value.Millimetres), test.Passes));
            }
        }

        var known = spots.All.FirstOrDefault(s => s.At == at);
        if (doubtful || known is { IsPlain: false })
        {
            return Possible.Judged;
        }

        if (known is { State: SpotState.Conflicting, ShowsBreach: false })
        {
            return Possible.NeverMet;
        }

        if (tries.Any(t => tries.Any(o => o.Thick == t.Thick && o.Passes != t.Passes)))
        {
            return Possible.Judged;
        }

        decimal[] passing = Prints(taught.Passes!);
        decimal[] stopping = Prints(taught.Stops!);
        if (
            tries.Any(t => !t.Passes && t.Thick <= passing.Min())
            || tries.Any(t => t.Passes && t.Thick >= stopping.Max())
        )
        {
            return tries.Any(t => tries.Any(o => t.Passes && !o.Passes && t.Thick > o.Thick))
                ? Possible.NeverMet
                : Possible.NotMet;
        }

        if (known is { ShowsBreach: true })
        {
            return
                tries.Any(t => !t.Passes && t.Thick <= passing.Max())
                || tries.Any(t => t.Passes && t.Thick >= stopping.Min())
                ? Possible.NeverMet
                : Possible.Unproven;
        }

        int passed = tries.FindIndex(t => t.Passes && passing.Contains(t.Thick));
        int stopped = tries.FindLastIndex(t => !t.Passes && stopping.Contains(t.Thick));
        return passed >= 0 && stopped > passed
            ? tries.Count > 2
                ? Possible.Judged
                : Possible.Met
            : tries.Any(t => !t.Passes && t.Thick <= passing.Max())
            || tries.Any(t => t.Passes && t.Thick >= stopping.Min())
                ? Possible.NeverMet
                : Possible.Unproven;
    }

    private static decimal[] Prints(DualPrint print) =>
        [
            print.Governing.Value.Millimetres,
            print.Alternate?.Value.Millimetres ?? print.Governing.Value.Millimetres,
        ];

    public static Possible Contact(Facts facts, UnitWork unit, Check.Contact check)
    {
        if (facts.School(unit.Sheet) is not { } school)
        {
            return Possible.NeverMet;
        }

        var contact = Sights.Contact(unit, new(unit, facts.Book.Sheet(unit.Sheet)!), check.Quantity);
        if (contact is { State: SpotState.Conflicting })
        {
            return Possible.NeverMet;
        }

        if (Sights.TouchesBesideAGap(facts, unit, check.Quantity))
        {
            return Possible.NeverMet;
        }

        var wanted = school == ContactSchool.AirGap ? ContactState.None : ContactState.Light;
        var spots = new Spots(facts, unit, check.Quantity);
        if (contact is { State: SpotState.Known } known)
        {
            // What was read is never outvoted by a look.
            return known.Contact != wanted ? Possible.NotMet
                : spots.All.Count > 0 ? Possible.Judged
                : Possible.Met;
        }

        if (!spots.IsPlain || school == ContactSchool.LightContact)
        {
            return spots.All.Count == 0 ? Possible.Unproven : Possible.Judged;
        }

        return spots.BothStationsKnown
            && spots.Known.All(s => s.State == SpotState.Known && s.IsInterval && s.IsFit && s.Low > 0)
                ? Possible.Judged
            : spots.Known.Count == 0 ? Possible.Unproven
            : Possible.NeverMet;
    }
}
