using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The setting orders in force on the day of a record, newest first, and what its job card asks for. Of several
/// orders the one that came into force last wins, for each quantity and each school; within an order a target for
/// the sheet wins over one for every unit of the area.
/// </summary>
internal sealed class SettingsInForce
{
    private readonly ImmutableArray<SettingOrder> orders;
    private readonly ServiceRecord record;

    private SettingsInForce(ImmutableArray<SettingOrder> orders, ServiceRecord record)
    {
        this.orders = orders;
        this.record = record;
    }

    public static SettingsInForce On(ServiceRecord record, AssessmentContext context) =>
        new(
            [
                .. context
                    .SettingOrders.Where(order => order.From <= record.Date && !(order.Until < record.Date))
                    .OrderByDescending(order => order.From)
                    .ThenByDescending(order => order.Id),
            ],
            record
        );

    public ContactSchool? SchoolFor(string sheet) =>
        orders
            .SelectMany(order => order.Schools)
            .Where(choice => string.Equals(choice.Sheet, sheet, StringComparison.Ordinal))
            .Select(choice => (ContactSchool?)choice.School)
            .FirstOrDefault();

    /// <summary>
    /// One target for each quantity. The job card's figure replaces the order's; the order's tolerance, where it
    /// states one, stays.
    /// </summary>
    public ImmutableArray<AreaTarget> TargetsFor(string sheet) =>
        [
            .. Enum.GetValues<MeasuredQuantity>()
                .Select(quantity => TargetOf(quantity, sheet))
                .OfType<AreaTarget>(),
        ];

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

    private AreaTarget? TargetOf(MeasuredQuantity quantity, string sheet)
    {
        var ordered = orders
            .Select(order => TargetIn(order, quantity, sheet))
            .FirstOrDefault(target => target is not null);
        var requested = record.Requested.LastOrDefault(asked => asked.Quantity == quantity);
        return requested is null
            ? ordered
            : new(record.Machine.Area ?? string.Empty, sheet, quantity, requested.Value, ordered?.Tolerance);
    }

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
