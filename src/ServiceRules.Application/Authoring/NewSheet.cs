using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Sheets;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Writes the limit sheet of a new kind of unit, from the one that is most like it and from the figures of its own manual.
/// What was not given is taken over and marked as not yet read anywhere.
/// </summary>
public static class NewSheet
{
    /// <param name="rules">A folder that is sound.</param>
    /// <param name="demand">What is asked for.</param>
    public static AuthoringOutcome Run(LoadedRules rules, SheetDemand demand)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(demand);
        var sheets = rules.Library.Sheets;
        if (sheets.FirstOrDefault(one => one.Value.Id.Text == demand.Id) is { } standing)
        {
            return new AuthoringOutcome.Refused([
                $"there is a limit sheet `{demand.Id}` in {standing.File}; accepted: another identity",
            ]);
        }

        if (sheets.FirstOrDefault(one => one.Value.Id.Text == demand.Like)?.Value is not { } like)
        {
            return new AuthoringOutcome.Refused([
                $"--like: there is no limit sheet `{demand.Like}`; accepted: one of {string.Join(", ", sheets.Select(one => one.Value.Id.Text).Order(StringComparer.Ordinal))}",
            ]);
        }

        ImmutableArray<string> against = [.. Against(like, demand)];
        if (!against.IsEmpty)
        {
            return new AuthoringOutcome.Refused(against);
        }

        using var draft = FolderDraft.Of(rules.Folder);
        var file = $"sheets/{demand.Id}.sheet.json";
        if (draft.Has(file))
        {
            return new AuthoringOutcome.Refused([$"there is a file {file}; accepted: another identity"]);
        }

        var sheet = SheetOf(like, demand);
        draft.Put(file, sheet, LimitSheetFormat.Current);
        var kept = draft.Keep(rules.Diagnostics);
        return kept is AuthoringOutcome.Written done
            ? done with
            {
                Notices = [.. done.Notices, .. Taken(sheet, demand, file)],
            }
            : kept;
    }

    /// <summary>How a figure is marked that was only taken over.</summary>
    private static Basis TakenFrom(LimitSheet like) =>
        new(BasisKind.FromMemory, $"as on {like.Id}; not yet read in this unit's own manual", null);

    private static IEnumerable<string> Against(LimitSheet like, SheetDemand demand)
    {
        foreach (
            var missing in demand.Without.Where(one =>
                like.Of(one) is null && !demand.Because.Any(given => given.Quantity == one)
            )
        )
        {
            yield return $"--without: {like.Id} says nothing of `{FileWord.Of(missing)}`; accepted: {string.Join(", ", like.Quantities.Select(one => FileWord.Of(one.Quantity)))}";
        }

        var isOther =
            demand.ReelDiameter is { } given && given.Governing.Value != like.ReelDiameter.Governing.Value;
        if (
            isOther
            && like.Of(MeasuredQuantity.ReelDiameter) is not null
            && !demand.Without.Contains(MeasuredQuantity.ReelDiameter)
            && !demand.Limits.Any(one => one is { Quantity: MeasuredQuantity.ReelDiameter, Member: "lower" })
        )
        {
            yield return $"the service limit of a reel of {like.ReelDiameter} is none for one of {demand.ReelDiameter}; accepted: --limit \"reel-diameter lower=LENGTH\" from the unit's own manual, or --without reel-diameter";
        }
    }

    private static LimitSheet SheetOf(LimitSheet like, SheetDemand demand)
    {
        var diameter = demand.ReelDiameter ?? like.ReelDiameter;
        var width = demand.Width ?? like.Width;
        var blades = demand.Blades ?? like.Blades;
        var longer = width.Governing.Value - like.Width.Governing.Value;
        return like with
        {
            Id = new(demand.Id),
            Title =
                demand.Title
                ?? string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Metric(diameter)} reel, {blades} blades, {Metric(width)}, {FileWord.Of(like.Bedknife)} bedknife"
                ),
            Basis = demand.Basis,
            ReelDiameter = diameter,
            Blades = blades,
            Width = width,
            // The site's figures of another kind of unit say nothing of this one.
            Wear = null,
            Adjusters =
            [
                .. like.Adjusters.Select(adjuster =>
                    adjuster with
                    {
                        RightAt = Moved(adjuster.RightAt, longer),
                        Disturbs =
                        [
                            .. adjuster.Disturbs.Where(disturbed =>
                                !demand.Without.Contains(disturbed.Quantity)
                            ),
                        ],
                    }
                ),
            ],
            Quantities = [.. Quantities(like, demand, longer)],
            LeftOut =
            [
                .. demand.Because,
                .. like.LeftOut.Where(one =>
                    !demand.Because.Any(given => given.Quantity == one.Quantity)
                    && !demand.Limits.Any(given => given.Quantity == one.Quantity)
                ),
            ],
        };
    }

    private static IEnumerable<QuantityLimit> Quantities(LimitSheet like, SheetDemand demand, Length longer)
    {
        var all = like
            .Quantities.Where(limit => !demand.Without.Contains(limit.Quantity))
            .Select(limit => Cleared(limit, like, demand))
            .Select(limit =>
                limit with
                {
                    RightStation = Moved(limit.RightStation, longer),
                    Basis = TakenFrom(like),
                }
            );
        var added = demand
            .Limits.Select(one => one.Quantity)
            .Distinct()
            .Where(quantity => like.Of(quantity) is null)
            .Select(quantity => new QuantityLimit { Quantity = quantity, Basis = demand.Basis });
        return all.Concat(added).Select(limit => Given(limit, like, demand));
    }

    // Said of the manual is only what was read there.
    private static QuantityLimit Given(QuantityLimit limit, LimitSheet like, SheetDemand demand)
    {
        var given = demand.Limits.Where(one => one.Quantity == limit.Quantity).ToList();
        if (given.Count == 0)
        {
            return limit;
        }

        var set = given.Aggregate(limit, (now, one) => LimitMembers.With(now, one.Member, one.Figure));
        List<string> rest = [.. LimitMembers.StatedIn(set).Except(given.Select(one => one.Member))];
        return set with
        {
            Basis =
                rest.Count == 0
                    ? demand.Basis
                    : new(
                        BasisKind.FromMemory,
                        $"{string.Join(", ", given.Select(one => one.Member))}: {demand.Basis.Source ?? FileWord.Of(demand.Basis.Kind)}; {string.Join(", ", rest)}: as on {like.Id}, not yet read in this unit's own manual",
                        null
                    ),
        };
    }

    // Of a reel of another size nothing is taken over.
    private static QuantityLimit Cleared(QuantityLimit limit, LimitSheet like, SheetDemand demand) =>
        limit.Quantity is MeasuredQuantity.ReelDiameter
        && demand.ReelDiameter is { } given
        && given.Governing.Value != like.ReelDiameter.Governing.Value
            ? new() { Quantity = limit.Quantity, Basis = limit.Basis }
            : limit;

    private static PrintedLength? Moved(PrintedLength? place, Length longer) =>
        place is null || longer == Length.Zero
            ? place
            : PrintedLength
                .Parse(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{Math.Round((place.Value + longer).Millimetres, 1).ToString("0.#", CultureInfo.InvariantCulture)} mm"
                    )
                )
                .OrThrow();

    private static string Metric(DualPrint print) =>
        print.Alternate is { System: UnitSystem.Metric } metric
            ? metric.ToString()
            : print.Governing.ToString();

    private static IEnumerable<string> Taken(LimitSheet sheet, SheetDemand demand, string file)
    {
        var leftOut = string.Concat(
            sheet
                .LeftOut.Except(demand.Because)
                .Select(left => $"; left out as on {demand.Like}: {FileWord.Of(left.Quantity)} ({left.Why})")
        );
        var taken = sheet.Quantities.Where(limit => limit.Basis.Kind is BasisKind.FromMemory).ToList();
        if (taken.Count > 0)
        {
            yield return $"taken over and not yet read in this unit's own manual: {string.Join(", ", taken.Select(limit => FileWord.Of(limit.Quantity)))}; also adjusters, procedure and cautions: hold {file} against the manual, and say in each `basis` what it rests on{leftOut}";
        }
    }
}
