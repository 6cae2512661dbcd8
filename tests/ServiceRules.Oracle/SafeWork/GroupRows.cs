using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Paragraphs (f)(2)(i), (f)(3) and (f)(4): outside people, groups, changes of shift.</summary>
internal static class GroupRows
{
    public static Possible Exchanged(Story story) =>
        Strangers(story)
            .Select(person => WithStranger(story, person))
            .Concat(WithOutsiders(story))
            .OfAllOrNone();

    /// <summary>Whoever has a part in the job and stands in no register: they may be anybody's.</summary>
    private static IEnumerable<string> Strangers(Story story) =>
        story
            .Steps.Where(s => s.IsDeviceOn || s.Kind == TimelineEventKind.WorkStarted)
            .Select(s => s.By)
            .Concat(story.SaidToWork)
            .Distinct()
            .Where(person => story.Person(person) is null);

    private static Possible WithStranger(Story story, string person)
    {
        var first = story.Steps.FirstOrDefault(s =>
            s.By == person && (s.IsDeviceOn || s.Kind == TimelineEventKind.WorkStarted)
        );
        return story.Steps.Any(s =>
            s.Kind == TimelineEventKind.ContractorProceduresExchanged
            && (first is null || s.Before(first))
            && (s.Event.Others.IsEmpty || s.Names(person) || s.By == person)
        )
            ? Possible.Met
            : Possible.NeverMet & ~Possible.NotMet;
    }

    private static IEnumerable<Possible> WithOutsiders(Story story) =>
        story
            .Context.People.Select(p => p.Id.Text)
            .Where(story.IsOutside)
            .Select(person =>
            {
                var first = story.Steps.FirstOrDefault(s =>
                    s.By == person
                    && (s.IsDeviceOn || s.IsDeviceOff || s.Kind == TimelineEventKind.WorkStarted)
                );
                if (first is null)
                {
                    return story.Touches.Any(touch => touch.By == person) || story.SaidToWork.Contains(person)
                        ? Possible.Any
                        : Possible.Any & ~Possible.NotMet;
                }

                var talks = story
                    .Steps.Where(s =>
                        s.Kind == TimelineEventKind.ContractorProceduresExchanged && s.Before(first)
                    )
                    .ToList();
                bool onlyTookOff = !story.Steps.Any(s =>
                    s.By == person && (s.IsDeviceOn || s.Kind == TimelineEventKind.WorkStarted)
                );
                bool performs = story.SaidToWork.Contains(person);
                return story.Touches.Any(touch => touch.By == person)
                    || onlyTookOff
                    || !(performs || story.Workers.Contains(person))
                        ? Possible.Any
                    : talks.Count == 0 ? Possible.NotMet
                    : talks.Any(s => s.Event.Others.IsEmpty || s.Names(person) || s.By == person)
                        ? Possible.Met
                    : Possible.NeverMet;
            });

    /// <summary>Everybody of a group under their own device, from start to stop.</summary>
    public static Possible OwnDevice(Story story)
    {
        var sum = story
            .Spells.Select(s => OwnDevice(story, s))
            .Concat(story.Guests.Select(guest => OwnDevice(story, guest)))
            .OfAll();
        bool untold = story.StrayStops.Any() || (!story.IsOpen && story.Spells.Any(s => s.Stop is null));
        var told = untold && sum != Possible.NotMet ? (sum & ~Possible.Met) | Possible.Unproven : sum;
        // Whoever the bench log shows at a unit in another's work makes it a group.
        return !story.Guests.Any() ? InGroup(story, told)
            : story.IsOpen || story.Spells.Any(s => s.Stop is null) ? InGroup(story, told) | told
            : told;
    }

    public static Possible PrimaryNamed(Story story)
    {
        var joining = Second(story, (one, other) => one.Overlaps(other));
        var before = NamedBy(story, joining, TimelineEventKind.PrimaryAssigned);
        var sum =
            before.Count == 0 ? Possible.NotMet
            : before.Any(s => Story.InCharge(s).Any(o => story.Authority(o) == Possible.Met)) ? Possible.Met
            : before.Any(s => Story.InCharge(s).Any(o => story.Authority(o) == Possible.NeverMet))
                ? Possible.Judged
            : Possible.NotMet;
        // Whoever is in charge of fewer than are at work is in charge of some only.
        return InGroup(story, before.Any(s => s.Event.Count is not null) ? sum | Possible.Unproven : sum);
    }

    public static Possible Accounted(Story story)
    {
        if (story.LastStop is not { } stop)
        {
            return InGroup(story, Possible.Any);
        }

        var primaries = story.InCharge(TimelineEventKind.PrimaryAssigned).ToList();
        var counts = story
            .Steps.Where(s => s.Kind == TimelineEventKind.ExposureChecked && stop.Before(s))
            .ToList();
        var mine = counts.Where(s => primaries.Contains(s.By)).ToList();
        var final = story
            .Steps.Where(s => s.IsDeviceOff && !s.IsForTest && stop.Before(s) && story.WasOn(s))
            .ToList();
        var any = final.FirstOrDefault();
        var isolator = final.FirstOrDefault(s => !s.IsOnBox);
        if (mine.Count > 0 && story.HasStrayRemoval(stop, mine[0]))
        {
            return InGroup(story, Possible.Any);
        }

        if (any is null)
        {
            return InGroup(
                story,
                mine.Count > 0
                    ? story.StrayStops.Any()
                        ? Possible.Any
                        : Possible.Any & ~Possible.NotMet
                    : story.IsOpen
                        ? Possible.Any & ~Possible.Met
                        : Possible.NeverMet | Possible.NotApplicable
            );
        }

        var missing = story.IsOpen ? Possible.NeverMet : Possible.NotMet;
        return InGroup(
            story,
            mine.Any(s => s.Before(any))
                    ? Possible.Met.OrStricter(
                        story.Steps.Any(s => s.IsForTest && stop.Before(s) && s.Before(any))
                            || mine.All(s =>
                                s.Event.Others.IsEmpty || !story.Workers.All(w => s.Names(w) || s.By == w)
                            )
                    )
                : mine.Any(s => isolator is null || s.Before(isolator) || story.Lock(isolator.Device) is null)
                    ? missing | Possible.Met
                : missing
        );
    }

    public static Possible CoordinatorNamed(Story story)
    {
        var people = story.Workers.Concat(HandsBeside(story)).Distinct().ToList();
        var crews = people.Select(person => story.Person(person)?.Crew).ToList();
        if (crews.OfType<string>().Distinct().Count() < 2)
        {
            return crews.Contains(null)
                ? Possible.Any
                : InGroup(
                    story,
                    PerformingCrews(story) > 1 || people.Exists(story.IsOutside)
                        ? Possible.Any
                        : Possible.NotApplicable | Possible.Met
                );
        }

        var joining = story.Workers.Any(w => story.Person(w) is null)
            ? story.FirstWork
            : Second(story, (one, other) => CrewOf(story, one.Person) != CrewOf(story, other.Person));
        var named = NamedBy(story, joining, TimelineEventKind.CoordinatorAssigned);
        return InGroup(
            story,
            named.Count == 0 ? Possible.NotMet
                : named.Any(s => s.Event.Others.Any(o => story.Authority(o.Text) == Possible.Met))
                    ? IsOfOtherCrews(story, crews)
                : Possible.Judged
        );
    }

    private static string CrewOf(Story story, string person) =>
        $"{story.Person(person)?.Employer} {story.Person(person)?.Crew}";

    /// <summary>When the second of a pair went in; where the record leaves open when, the first of all.</summary>
    private static Step? Second(Story story, Func<Spell, Spell, bool> isPair)
    {
        var second = story
            .Spells.SelectMany(one =>
                story
                    .Spells.Where(other => other.Start.Place < one.Start.Place && isPair(one, other))
                    .Select(_ => one)
            )
            .MinBy(spell => spell.Start.Place);
        return
            second is null || story.StrayStops.Any() || story.Guests.Any(guest => guest.At <= second.Start.At)
            ? story.FirstWork
            : second.Start;
    }

    private static List<Step> NamedBy(Story story, Step? joining, TimelineEventKind kind) =>
        [.. story.Steps.Where(s => s.Kind == kind && (joining is null || s.At <= joining.At))];

    /// <summary>Who coordinates the crews that are named, coordinates no other.</summary>
    private static Possible IsOfOtherCrews(Story story, List<string?> crews)
    {
        var told = story.Steps.Where(s => s.Kind == TimelineEventKind.CoordinatorAssigned).ToList();
        return told.Exists(s => s.Event.Crews.IsEmpty) ? Possible.Met
            : crews.OfType<string>().All(crew => told.Exists(s => s.Event.Crews.Contains(crew)))
                ? Possible.Met | (crews.Contains(null) ? Possible.Unproven : Possible.None)
            : Possible.Unproven;
    }

    public static Possible HandedOver(Story story) =>
        story.Spells.Select(s => HandedOver(story, s)).OfAllOrNone();

    private static int PerformingCrews(Story story) =>
        story.SaidToWork.Select(p => story.Person(p)?.Crew).OfType<string>().Distinct().Count();

    private static Possible InGroup(Story story, Possible judged)
    {
        var (surely, perhaps) = story.SharedWork;
        // Who is to be in charge of somebody whom only the bench log shows there, nothing says.
        perhaps |= story.Guests.Any() || HandsBeside(story).Any();
        return surely
                ? judged | (story.IsOpen && judged.HasFlag(Possible.Met) ? Possible.Unproven : Possible.None)
            : perhaps ? judged | Possible.Any
            : story.IsOpen && !story.HandsWentIn ? Possible.Any
            : Possible.Any & ~Possible.NotMet;
    }

    /// <summary>Whoever wedges, props or refits beside another who is at work makes it two, one of whom leads.</summary>
    private static IEnumerable<string> HandsBeside(Story story) =>
        story
            .Steps.Where(s =>
                s.Kind
                    is TimelineEventKind.ReelWedged
                        or TimelineEventKind.UnitSupported
                        or TimelineEventKind.GuardsRefitted
                && !story.Spells.Any(w => w.Person == s.By && w.Covers(s.Place))
                && story.Spells.Any(w => w.Person != s.By && w.Covers(s.Place))
            )
            .Select(s => s.By);

    /// <summary>Whoever the bench log shows at a unit in another's work is of the group, under an own device too.</summary>
    private static Possible OwnDevice(Story story, Touch guest) =>
        story.Isolatable.All(s => !s.Lockable) || BorrowedOrUnknown(story, guest.By) ? Possible.Judged
        : Own(story, guest.By, guest.After + 1).Count > 0 ? Possible.Met.OrStricter(true)
        : guest.IsDisordered
        || !story.Spells.Any(s => s.Person != guest.By && s.Stop is not null && guest.IsIn(s))
            ? Possible.NeverMet
        : Possible.NotMet;

    private static Possible OwnDevice(Story story, Spell spell)
    {
        if (KeepsThePlug(story, spell))
        {
            return Possible.Judged;
        }

        bool boxAlone = false;
        bool lacking = Own(story, spell.Person, spell.Start.Place + 1).Count == 0;
        bool lackingLater = false;
        bool oneOfSeveralOff = false;
        for (int place = spell.Start.Place; place < story.Steps.Count && place < spell.End; place++)
        {
            // Just after each event while hands are in; the device may come on in the instant of the start.
            var own = Own(story, spell.Person, place + 1);
            lackingLater |= own.Count == 0;
            boxAlone |= own.Count > 0 && own.All(s => s.IsOnBox) && HasBareIsolator(story, place + 1);
            oneOfSeveralOff |=
                story.Steps[place].IsDeviceOff && story.Steps[place].By == spell.Person && own.Count > 0;
        }

        if (lacking || lackingLater)
        {
            bool tied = story.Steps.Any(s =>
                s.IsDeviceOn && s.By == spell.Person && s.At == spell.Start.At && spell.Start.Before(s)
            );
            return tied || BorrowedOrUnknown(story, spell.Person) ? Possible.Judged
                : lacking || spell.Stop is not null ? Possible.NotMet
                : Possible.NeverMet;
        }

        return Possible.Met.OrStricter(boxAlone || oneOfSeveralOff || BorrowedOrUnknown(story, spell.Person))
            | (spell.Stop is null ? Possible.Unproven : Possible.None);
    }

    /// <summary>The plug is all there is, it is out, and this person keeps it too.</summary>
    private static bool KeepsThePlug(Story story, Spell spell) =>
        story.Isolatable.ToList() is [{ Lockable: false } only]
        && story.Steps.Any(kept =>
            kept.Kind == TimelineEventKind.PlugControlConfirmed
            && kept.By == spell.Person
            && (kept.Event.Source is null || kept.IsOf(only.Id.Text))
            && kept.At <= spell.Start.At
            && story.Steps.Any(s => s.Kind == TimelineEventKind.PlugRemoved && s.At <= kept.At)
        );

    /// <summary>Devices that a person put on and that are theirs, on at a place in the order.</summary>
    private static List<Step> Own(Story story, string person, int place)
    {
        List<Step> on = [];
        foreach (var step in story.Steps.TakeWhile(s => s.Place < place))
        {
            if (step.IsDeviceOff)
            {
                on.RemoveAll(s => s.Device == step.Device);
            }
            else if (step.IsDeviceOn && step.By == person && IsPersonal(story, step))
            {
                on.Add(step);
            }
        }

        return on;
    }

    private static bool IsPersonal(Story story, Step step) =>
        step.Kind == TimelineEventKind.TagApplied || story.Lock(step.Device)?.Owner?.Text == step.By;

    /// <summary>A lock that the register does not have, or that another hung for its owner.</summary>
    private static bool BorrowedOrUnknown(Story story, string person) =>
        story.Steps.Any(s =>
            s.IsDeviceOn
            && (
                (s.By == person && story.Lock(s.Device) is null)
                || (s.By != person && story.Lock(s.Device)?.Owner?.Text == person)
            )
        );

    private static bool HasBareIsolator(Story story, int place) =>
        story.Isolatable.Any(s => story.DevicesOn(s.Id.Text, place).Count == 0);

    private static Possible HandedOver(Story story, Spell incoming)
    {
        int start = incoming.Start.Place;
        if (story.Spells.Any(s => s.Covers(start)))
        {
            return Joined(story, incoming);
        }

        var outgoing = story.Spells.Where(s => s.End < start).MaxBy(s => s.End);
        if (outgoing is null || outgoing.Person == incoming.Person)
        {
            return Possible.NotApplicable;
        }

        var between = story.Steps.Where(s => outgoing.Stop!.Before(s) && s.Before(incoming.Start)).ToList();
        bool ran = between.Any(s => s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.TestEnded);
        bool released = story.Steps.Any(s =>
            s.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised
            && s.Before(incoming.Start)
        );
        bool sameGroup = story.Spells.Any(s => s.Person == incoming.Person && s.Start.Place < start);
        if (ran || released || sameGroup || !story.UsedDevices)
        {
            return Possible.Any;
        }

        bool gap = story.Isolatable.Any(s => HasGap(story, s.Id.Text, start));
        var briefings = story
            .Steps.Where(s =>
                s.Kind == TimelineEventKind.HandoverBriefed
                && outgoing.Start.Before(s)
                && s.Before(incoming.Start)
            )
            .ToList();
        if (gap || briefings.Count == 0)
        {
            return Possible.NotMet;
        }

        if (!briefings.Any(s => TookPart(story, s, incoming)))
        {
            // "No handover_briefed between the two"; what only the incoming one says shows no breach and no briefing.
            return briefings.Any(s => s.By == incoming.Person) ? Possible.NeverMet : Possible.NotMet;
        }

        bool named = briefings.Any(s =>
            s.By == outgoing.Person && s.Names(incoming.Person) && outgoing.Stop!.Before(s)
        );
        return Possible.Met.OrStricter(!named);
    }

    /// <summary>Somebody who comes in beside those who took over is asked for a briefing of their own.</summary>
    private static Possible Joined(Story story, Spell incoming)
    {
        // Back to when nobody was in, by those whose hands cover one another.
        int since = incoming.Start.Place;
        while (story.Spells.Where(s => s.Covers(since)).MinBy(s => s.Start.Place) is { } earlier)
        {
            since = earlier.Start.Place;
        }

        var first = story.Spells.First(s => s.Start.Place == since);
        bool tookOver = HandedOver(story, first) is not Possible.NotApplicable;
        var before = story.Spells.Where(s => s.End < since).MaxBy(s => s.End);
        if (!tookOver || before is null)
        {
            return Possible.NotApplicable;
        }

        if (story.Spells.Any(s => s.Person == incoming.Person && s.Start.Place < incoming.Start.Place))
        {
            return Possible.Any;
        }

        var briefings = story
            .Steps.Where(s =>
                s.Kind == TimelineEventKind.HandoverBriefed
                && before.Start.Before(s)
                && s.Before(incoming.Start)
            )
            .ToList();
        return briefings.Any(s => s.Event.Others.IsEmpty || s.By == incoming.Person) ? Possible.Any
            : briefings.Any(s => TookPart(story, s, incoming)) ? Possible.Any
            : Possible.NotMet | Possible.NotApplicable;
    }

    /// <summary>"Outgoing to incoming": by one who worked before, or by a third person who names both.</summary>
    private static bool TookPart(Story story, Step briefing, Spell incoming)
    {
        var others = briefing.Event.Others.Select(o => o.Text).ToList();
        bool byOneWhoWorked = Worked(story, briefing.By, incoming);
        return briefing.By != incoming.Person
            && (
                others.Count == 0
                    ? byOneWhoWorked
                    : others.Contains(incoming.Person)
                        && (byOneWhoWorked || others.Exists(other => Worked(story, other, incoming)))
            );
    }

    private static bool Worked(Story story, string person, Spell incoming) =>
        story.Spells.Any(s => s.Start.Before(incoming.Start) && s.Person == person);

    /// <summary>Between its first device and this place, tests aside, nothing hung on the isolator.</summary>
    private static bool HasGap(Story story, string source, int until)
    {
        var first = story.Steps.FirstOrDefault(s => s.IsDeviceOn && s.IsOf(source));
        if (first is null || first.Place >= until)
        {
            return false;
        }

        for (int place = first.Place + 1; place <= until; place++)
        {
            var lastOff = story.Steps.LastOrDefault(s => s.IsDeviceOff && s.IsOf(source) && s.Place < place);
            if (story.DevicesOn(source, place).Count == 0 && lastOff?.IsForTest != true)
            {
                return true;
            }
        }

        return false;
    }
}
