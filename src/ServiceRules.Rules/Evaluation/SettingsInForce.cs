using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The setting orders in force on the day of a record, newest first, and what its job card asks for. Of several
/// orders the one that came into force last wins, for each quantity and each school; within an order a target for
/// the sheet wins over one for every unit of the area.
/// </summary>
internal sealed class SettingsInForce
{
    // Of more areas than these a list helps nobody.
    private const int MostAreas = 8;

    private readonly ImmutableArray<SettingOrder> orders;
    private readonly ServiceRecord record;
    private readonly JobCards cards;

    private SettingsInForce(ImmutableArray<SettingOrder> orders, ServiceRecord record, JobCards cards)
    {
        this.orders = orders;
        this.record = record;
        this.cards = cards;
    }

    public static SettingsInForce On(ServiceRecord record, AssessmentContext context) =>
        new(
            [
                .. context
                    .SettingOrders.Where(order => order.From <= record.Date && !(order.Until < record.Date))
                    .OrderByDescending(order => order.From)
                    .ThenByDescending(order => order.Id),
            ],
            record,
            new(record, context)
        );

    public ContactSchool? SchoolFor(string sheet) =>
        orders
            .SelectMany(order => order.Schools)
            .Where(choice => string.Equals(choice.Sheet, sheet, StringComparison.Ordinal))
            .Select(choice => (ContactSchool?)choice.School)
            .FirstOrDefault();

    /// <summary>
    /// One target for each quantity. The job card's figure replaces the order's where the card is taken; the order's tolerance,
    /// where it states one, stays.
    /// </summary>
    public ImmutableArray<AreaTarget> TargetsFor(string sheet, ImmutableArray<CardAsked> asked) =>
        [
            .. Enum.GetValues<MeasuredQuantity>()
                .Select(quantity => TargetOf(quantity, sheet, asked))
                .OfType<AreaTarget>(),
        ];

    /// <summary>What job cards ask for that the order does not; the last that is taken counts.</summary>
    public ImmutableArray<CardAsked> CardsFor(string sheet) =>
        [
            .. from asked in record.Requested
            let ordered = OrderedOf(asked.Quantity, sheet)
            where ordered?.Target.Target.Value != asked.Value.Value
            select cards.Held(asked, ordered),
        ];

    /// <summary>Why no order in force can be chosen by the area of the record; null: it can, or there is none to choose.</summary>
    public string? AreaUnknown(MeasuredQuantity quantity)
    {
        var known = orders
            .SelectMany(order => order.Targets)
            .Where(target => target.Quantity == quantity)
            .Select(target => target.Area)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToList();
        return known.Count == 0 || known.Contains(record.Machine.Area, StringComparer.Ordinal) ? null
            : record.Machine.Area is { } area
                ? $"no setting order in force knows the area `{area}`; {Known(known, area)}"
            : $"the record does not say on which area the machine works; {Known(known, null)}";
    }

    private static string Known(List<string> areas, string? meant) =>
        meant is not null && NearestName.Of(meant, areas) is { } near ? $"did you mean `{near}`?"
        : areas.Count <= MostAreas ? $"the orders know {Wording.Listed([.. areas])}"
        : FormattableString.Invariant($"the orders know {areas.Count} others");

    /// <summary>The speeds to mow at: of the newest order that states any for this area.</summary>
    public AreaMowing? MowingFor(string sheet) =>
        orders.Select(order => MowingIn(order, sheet)).FirstOrDefault(mowing => mowing is not null);

    private AreaMowing? MowingIn(SettingOrder order, string sheet) =>
        order
            .Mowing.Where(mowing =>
                string.Equals(mowing.Area, record.Machine.Area, StringComparison.Ordinal)
                && (mowing.Sheet is null || string.Equals(mowing.Sheet, sheet, StringComparison.Ordinal))
            )
            .OrderBy(mowing => mowing.Sheet is null)
            .FirstOrDefault();

    private AreaTarget? TargetOf(MeasuredQuantity quantity, string sheet, ImmutableArray<CardAsked> asked)
    {
        var ordered = OrderedOf(quantity, sheet)?.Target;
        var taken = asked.LastOrDefault(card => card.IsTaken && card.Asked.Quantity == quantity);
        return taken is null
            ? ordered
            : new(
                record.Machine.Area ?? string.Empty,
                sheet,
                quantity,
                taken.Asked.Value,
                ordered?.Tolerance
            );
    }

    private (SettingOrder Order, AreaTarget Target)? OrderedOf(MeasuredQuantity quantity, string sheet) =>
        orders
            .Select(order =>
                TargetIn(order, quantity, sheet) is { } target
                    ? (order, target)
                    : ((SettingOrder Order, AreaTarget Target)?)null
            )
            .FirstOrDefault(target => target is not null);

    private AreaTarget? TargetIn(SettingOrder order, MeasuredQuantity quantity, string sheet) =>
        order
            .Targets.Where(target =>
                target.Quantity == quantity
                && string.Equals(target.Area, record.Machine.Area, StringComparison.Ordinal)
                && (target.Sheet is null || string.Equals(target.Sheet, sheet, StringComparison.Ordinal))
            )
            .OrderBy(target => target.Sheet is null)
            .FirstOrDefault();
}
