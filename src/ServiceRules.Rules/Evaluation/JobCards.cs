using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Whose word on a job card counts: who may let out what others did, or set the order that is moved away from, and had no
/// hand in the job. A card also names that order, so that whoever asked is seen to have known it.
/// </summary>
internal sealed class JobCards
{
    private readonly AssessmentContext context;
    private readonly DateOnly day;
    private readonly ImmutableHashSet<Id<Participant>> workers;

    public JobCards(ServiceRecord record, AssessmentContext context)
    {
        this.context = context;
        day = record.Date;
        workers = WhoDidTheWork.In(record);
    }

    /// <summary>One card held against the target that it moves away from.</summary>
    public CardAsked Held(RequestedSetting asked, (SettingOrder Order, AreaTarget Target)? ordered) =>
        new(asked, ordered?.Target, ordered?.Order, WhyNot(asked, ordered?.Order))
        {
            IsUnheld = !HasRegister,
        };

    // Of a job that was judged without a site's folder nothing is registered at all. A site that keeps orders, procedures or
    // gauges knows its people, also where it has none of those that this record names.
    private bool HasRegister =>
        context
            is not {
                People.IsEmpty: true,
                SettingOrders.IsEmpty: true,
                Procedures.IsEmpty: true,
                Machines.IsEmpty: true,
                Locks.IsEmpty: true,
                Instruments: null
            };

    private string? WhyNot(RequestedSetting asked, SettingOrder? order) =>
        asked.By is not { } person ? "it does not say who asked"
        : workers.Contains(person) ? "they did the work themselves"
        : HasRegister && WhyNotEntitled(person, order) is { } unentitled ? unentitled
        : order is null
            ? asked.Order is null ? null
                : $"it moves away from setting order {asked.Order}, which asks for nothing here"
        : asked.Order is null ? $"it does not name setting order {order.Id}, which it moves away from"
        : asked.Order != order.Id
            ? $"it moves away from setting order {asked.Order}, and {order.Id} is in force here"
        : null;

    private string? WhyNotEntitled(Id<Participant> person, SettingOrder? order)
    {
        var entry = context.People.FirstOrDefault(known => known.Id == person);
        return entry?.Left < day ? "by the register of people they had left the site"
            : order?.By == person ? null
            : entry is null ? "the register of people does not have them"
            : !entry.MayRelease ? "the register does not let them release or order anything"
            : null;
    }
}
