using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A quantity, as left, against the limits of its sheet or about the target in force.</summary>
internal static class LimitOnQuantityCheck
{
    public static CheckOutcome Evaluate(
        Check.LimitOnQuantity check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    ) =>
        unit is null ? Subjects.EachUnit(rule, frame)
        : check.Against is LimitSource.WornBelow ? WornReel.Evaluate(check.Quantity, rule, unit)
        : Judged(check, rule, frame, unit);

    private static CheckOutcome Judged(Check.LimitOnQuantity check, Rule rule, JobFrame frame, UnitFrame unit)
    {
        var subject = Wording.Of(check.Quantity);
        if (check.Quantity is MeasuredQuantity.Clearance && BySchool(unit) is { } decided)
        {
            return decided;
        }

        if (ZoneFor(check, unit, out var missing) is not { } zone)
        {
            return TargetTold.Missing(missing, check, frame, unit);
        }

        var places = UnitPlaces.Of(unit, check.Quantity);
        var contested = ContestedBreach.Among(check.Quantity, places, zone, rule.Decision);
        var beyond = EndsBeyond(check, places);
        List<PlaceJudgement> judged = [.. Judgements(check, rule, unit, places, zone), .. contested];
        var evidence = places.Usable.SelectMany(place => place.Evidence);
        var outcome = JudgedPlaces.Outcome(subject, judged, [.. places.Obstacles, .. beyond], evidence);
        if (check.Quantity is MeasuredQuantity.Clearance)
        {
            outcome = ContactFault.Doubting(outcome, unit, check.Quantity);
        }

        outcome = TargetTold.InDoubt(outcome, check, frame);
        return outcome with
        {
            Notices =
            [
                .. outcome.Notices,
                .. TargetTold.Notices(check, frame, unit),
                .. Alike.Once(contested.Select(ContestedBreach.Notice)),
                .. Alike.Once(FeelerNotices(places)),
                .. CarriedNotice.Notices(check.Quantity, unit, places),
                .. TurnsObtained.Notices(check.Quantity, unit),
                .. LineShape.Notices(check.Quantity, places.Lines(), outcome.Verdict),
                .. LoweringNotice.For(check, unit, zone),
                .. OrderedWidth.Notices(check, unit),
                .. check.Against is LimitSource.Sheet ? WearLeft.Notices(check.Quantity, unit, places) : [],
                .. check.Quantity is MeasuredQuantity.ShieldGap ? ShieldDrift.Notices(unit) : [],
            ],
            Remedy =
                outcome.Remedy
                ?? (contested.IsEmpty ? null : ContestedBreach.Remedy(check.Quantity, places))
                ?? ReadFirst(check.Quantity, outcome, places, beyond)
                ?? LimitRemedy.For(outcome, check.Quantity, rule, frame, unit, places, zone),
        };
    }

    private static IEnumerable<(string Where, string Told)> FeelerNotices(UnitPlaces places) =>
        places
            .Usable.Where(place => place.CountsEarlierTries)
            .Select(place =>
                (
                    places.Said(place.Station, place.Blade),
                    "tries before the last step still count, moved with it by its lever; so the gap is "
                        + Wording.Of(place.Knowledge!, place.System)
                )
            )
            .Concat(
                places
                    .Usable.Where(place => place.LeavesOutTries)
                    .Select(place =>
                        (
                            places.Said(place.Station, place.Blade),
                            "tries before a turn that was noted as a distance do not count: how far it moved the gap nobody read"
                        )
                    )
            )
            .Concat(
                places
                    .Usable.Where(place =>
                        place.Knowledge is LengthInterval && place.Feelers.Any(feeler => feeler.IsByRootSum)
                    )
                    .Select(place =>
                        (
                            places.Said(place.Station, place.Blade),
                            "the tolerances of stacked feelers are added by root-sum, as their set names it; that is no "
                                + "bound, a stack may be further off"
                        )
                    )
            )
            .Concat(
                from place in places.Usable
                where place.Knowledge is LengthInterval
                let stated = place
                    .Feelers.Select(feeler => feeler.ToleranceNotBelieved)
                    .OfType<PrintedLength>()
                where stated.Any()
                select (
                    places.Said(place.Station, place.Blade),
                    $"the feelers are stated to be true to {stated.First()}, and no set is made truer than "
                        + $"{FeelerTolerance.Finest}: that is counted (common practice, no source)"
                )
            );

    /// <summary>
    /// In the light-contact school there is no gap to measure; where reel and bedknife touch, there is none either.
    /// </summary>
    private static CheckOutcome? BySchool(UnitFrame unit)
    {
        var taught = unit.Sheet.Of(MeasuredQuantity.Clearance)?.Schools ?? [];
        if (unit.School is ContactSchool.LightContact)
        {
            return Told.NotApplicable("Clearance: set to light contact here, so there is no gap to measure");
        }

        if (unit.School is null && !taught.IsEmpty)
        {
            return Told.Unproven(
                FindingReason.NoSettingInForce,
                "Clearance: no setting order says whether this unit runs with light contact or a gap",
                remedy: new Remedy.Act("have the lead enter the school for this kind of unit")
            );
        }

        return ContactFault.InAirGap(unit, MeasuredQuantity.Clearance);
    }

    private static PrintedZone? ZoneFor(Check.LimitOnQuantity check, UnitFrame unit, out CheckOutcome missing)
    {
        var subject = Wording.Sentence(Wording.Of(check.Quantity));
        var limit = unit.Sheet.Of(check.Quantity);
        missing = Told.NotApplicable($"{subject}: the limit sheet states no limit");
        if (check.Against is LimitSource.Sheet)
        {
            return PrintedZone.Of(limit?.Lower, limit?.Upper, limit?.Target?.Governing.Value);
        }

        missing = Told.Unproven(
            FindingReason.NoSettingInForce,
            $"{subject}: no target is in force for this unit on this day",
            remedy: new Remedy.Act("have the lead enter a setting order, or ask on the job card")
        );
        if (unit.Targets.FirstOrDefault(target => target.Quantity == check.Quantity) is not { } target)
        {
            return null;
        }

        if (PrintedZone.About(target.Target.Value, limit, target.Tolerance) is not { } about)
        {
            missing = missing with
            {
                Statement =
                    $"{subject}: a target is in force, but neither it nor the limit sheet says how far off it may be",
            };
            return null;
        }

        return about;
    }

    private static List<PlaceJudgement> Judgements(
        Check.LimitOnQuantity check,
        Rule rule,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    )
    {
        var bound = NaturalBounds.Of(check.Quantity);
        var asked = places
            .Usable.Select(place => new Asked(
                check.Quantity,
                UnitPlaces.Name(place.Station, place.Blade),
                places.Said(place.Station, place.Blade),
                place.Knowledge!,
                place.System,
                place.Doubt,
                bound
            )
            {
                Grown = GrownDoubt.BySteps(place.AsRead),
                Corrected = place.Corrected is [var corrected] ? corrected : null,
                IsReadInBoth = place.IsReadInBoth,
            })
            .ToList();
        if (check.Where is CheckedPlaces.StationsAndEnds)
        {
            asked.AddRange(places.AllLines().SelectMany(line => Ends(check.Quantity, line, unit, bound)));
        }

        return asked.ConvertAll(each => PlaceJudgement.Of(each, zone, rule.Decision));
    }

    /// <summary>Ends that lie too far beyond what was read, where nothing else is missing: nothing is told of them.</summary>
    private static ImmutableArray<Obstacle> EndsBeyond(Check.LimitOnQuantity check, UnitPlaces places) =>
        check.Where is CheckedPlaces.StationsAndEnds && places.Obstacles.IsEmpty
            ?
            [
                .. places
                    .AllLines()
                    .SelectMany(line =>
                        new[] { ("left end", Length.Zero), ("right end", places.Width) }
                            .Where(end => !line.Reaches(end.Item2))
                            .Select(end => new Obstacle(
                                FindingReason.TooFewStations,
                                end.Item2,
                                $"the {end.Item1}, too far beyond what was read to be told",
                                [.. line.Places.SelectMany(place => place.Evidence)]
                            ))
                    ),
            ]
            : [];

    /// <summary>What is out is not turned before what readings elsewhere do not tell is known.</summary>
    private static Remedy.ReadAgain? ReadFirst(
        MeasuredQuantity quantity,
        CheckOutcome outcome,
        UnitPlaces places,
        ImmutableArray<Obstacle> beyond
    ) =>
        outcome.Verdict is Verdict.NotMet && places.IsContested
            ? new(quantity, [.. places.Obstacles.Select(obstacle => obstacle.Place)], ContestedRemedy.Why)
        : outcome.Verdict is Verdict.NotMet && places.AllLines().Any(line => !line.ReachesBothEnds)
            ? new(
                quantity,
                [.. places.Obstacles.Concat(beyond).Select(obstacle => obstacle.Place)],
                "it is out, but was read at too few places to tell how far to turn: read within 5 mm of the ends"
            )
        : outcome is { Verdict: Verdict.Unproven, Reason: FindingReason.TooFewStations } && !beyond.IsEmpty
            ? new(
                quantity,
                [.. beyond.Select(obstacle => obstacle.Place)],
                "measured at too few places: read within 5 mm of the end"
            )
        : null;

    private static IEnumerable<Asked> Ends(
        MeasuredQuantity quantity,
        KnownLine line,
        UnitFrame unit,
        Length? bound
    )
    {
        foreach (
            var (name, at) in new[]
            {
                ("left end", Length.Zero),
                ("right end", StationPlaces.Width(unit.Sheet)),
            }
        )
        {
            if (line.ReadAt(at) is null && line.Reaches(at))
            {
                var place = line.Blade is { } blade ? $"{name}, blade {blade}" : name;
                yield return new(quantity, place, place, line.Fit.At(at), line.System, line.Doubt, bound)
                {
                    IsAtEnd = true,
                    IsReadInBoth = line.IsReadInBoth,
                    Grown = GrownDoubt.OfLine(line, each => each.Fit.At(at)),
                };
            }
        }
    }
}
