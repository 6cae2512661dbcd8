using System.Collections.Immutable;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Words of how a source was proven dead, stored energy released or cut-outs proved that say the opposite: it started, pressure
/// stayed, nobody tried; of other steps <see cref="DeniedStep"/> and <see cref="DeniedDeed"/> read them, of how and of why. Free words are not read further than that, and prove nothing by themselves; a pressure read is told
/// by its own member.
/// </summary>
public static partial class SaidOtherwise
{
    /// <summary>An entry that says of how it was done that it was not.</summary>
    public static bool By(TimelineEvent entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return Words(entry) is not null;
    }

    /// <summary>What an entry says, of how or of why, that denies it; null: nothing.</summary>
    internal static string? Words(TimelineEvent entry) =>
        entry.Method is { } method && Denies(entry, method) ? method
        : entry.Reason is { } reason && Denies(entry, reason) ? reason
        : null;

    /// <summary>
    /// Words of how or why that negate something and are not read as a denial: what they come to is for a person to read. Null: none.
    /// </summary>
    internal static string? Negating(TimelineEvent entry) =>
        By(entry) ? null
        : entry.Method is { } method && Negation().IsMatch(method) ? method
        : entry.Reason is { } reason && Negation().IsMatch(reason) ? reason
        : null;

    private static bool Denies(TimelineEvent entry, string method) =>
        PlainDenial.By(entry, method)
        || entry.Kind switch
        {
            TimelineEventKind.IsolationVerified => Moved().IsMatch(method)
                || Stayed().IsMatch(method)
                || NotDone().IsMatch(method),
            TimelineEventKind.StoredEnergyReleased => Stayed().IsMatch(method) || NotDone().IsMatch(method),
            TimelineEventKind.CutOutsProved => NotDone().IsMatch(method)
                || NotStopped().IsMatch(method)
                || RanOn().IsMatch(method),
            _ => DeniedStep.By(entry, method) || DeniedDeed.By(entry, method),
        };

    /// <summary>Such entries that no later one of the same kind and source makes good before hands go in.</summary>
    internal static ImmutableArray<OrderedEvent> Standing(TimelineReading reading) =>
        [
            .. Standing(reading, TimelineEventKind.IsolationVerified),
            .. Standing(reading, TimelineEventKind.StoredEnergyReleased),
            .. DeniedStep.Kinds.Concat(DeniedDeed.Kinds).SelectMany(kind => Standing(reading, kind)),
        ];

    /// <summary>How such an entry is told, after its time and in brackets.</summary>
    internal static string Told(OrderedEvent entry) =>
        $"of {(Words(entry.Event) == entry.Event.Method ? "how" : "why")} it says `{Words(entry.Event)}`";

    private static IEnumerable<OrderedEvent> Standing(TimelineReading reading, TimelineEventKind kind)
    {
        var steps = reading.Of(kind);
        return steps.Where(entry =>
            By(entry.Event)
            && !steps.Any(later =>
                later.Place() > entry.Place()
                && !By(later.Event)
                && (later.Event.Source is SourceReference.All || later.Event.Source == entry.Event.Source)
                && (entry.Event.Lock is null || later.Event.Actor == entry.Event.Actor)
                && !reading.Works.Any(work =>
                    work.Start.Place() > entry.Place() && work.Start.Place() < later.Place()
                )
            )
        );
    }

    [GeneratedRegex(
        @"\b(?:no|not|nor|none|never|nobody|no-one|nothing|neither|without|cannot|instead|but|except|although|\w+n'?t)\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Negation();

    [GeneratedRegex(
        @"(?<!\b(?:no|nothing|neither|nor|not an?y?|without)\W+)\b(?:it|engine|motor|reels?|machine|units?|blades?|cylinder)\W+(?:(?:then|still|just|briefly|has|had|suddenly)\W+)?(?:fired|fires|ran|runs|running|started|starts|cranked|cranks|turned|turns|turning|moved|moves|moving|spun|spins|live|dropped|drops|fell|sank|jumped)\b(?!\W+(?:off|out|by\W+hand|with\W+a\W+tool)\b)"
            + @"|\bstarter\W+(?:motor\W+)?(?:cranked|cranks|turned|turns|spun|spins|kicked|kicks|engaged|engages)\b(?!.*\b(?:no|not|nothing|dead|neither|without|didn't)\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Moved();

    [GeneratedRegex(
        @"(?<!\b(?:no|nor|zero|without)\W+)\bpressure\W+(?:(?:then|still|had|has)\W+)?(?:remained|remains|stayed|stays|held|holds|rose|left|there)\b(?!\W+(?:at\W+)?(?:0|zero|nil)\b)"
            + @"|(?<!\b(?:no|nothing|not|none|neither|nor)\W+(?:\w+\W+)?)\bstill\W+(?:live|running|turning|moving|charged|pressuri[sz]ed|loaded|raised|under\W+(?:pressure|load|tension))\b"
            + @"|\b(?:gauge|pressure|reads?|reading)\W+(?:(?:still|at|is|was|shows?|showed|reads?|reading)\W+)*(?:[1-9][0-9]+(?:[.,][0-9]+)?\W*bar|[1-9][0-9]{2,}(?:[.,][0-9]+)?\W*(?:psi|kpa))\b(?!.*\b(?:0|zero|nil|bled|released|down|fell|dropped|before)\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Stayed();

    [GeneratedRegex(
        @"\b(?:not|never)\W+(?:(?:yet|been|be|actually|really)\W+)*(?:tried|tested|checked|released|verified|proved|proven|bled|drained|discharged|relieved|attempted|performed|done)\b"
            + @"|\b(?:didn'?t|did\W+not|couldn'?t|could\W+not|can'?t|cannot|unable\W+to|not\W+able\W+to|forgot\W+to)\W+(?:be\W+)?(?:try|test|check|release|verify|prove|bleed|drain|relieve|tried|tested|checked|released|verified|proved|proven|bled|drained)\b"
            + @"|\b(?:nobody|no\W+one|no-one|none\W+of\W+us)\W+(?:has\W+|had\W+)?(?:tried|tested|checked|looked|released|verified|proved|bled)\b"
            + @"|\b(?:untried|untested|unverified|unchecked)\b"
            + @"|(?<!\b(?:no|not|nothing|none|never|without)\W+(?:\w+\W+)?)\b(?:assumed|assuming|presumed|skipped)\b"
            + @"|\b(?:will|shall|to\W+be|going\W+to|must\W+still|must\W+be|still\W+to\W+be|still\W+to)\W+(?:be\W+)?(?:try|test|check|release|verify|prove|do|bleed|tried|tested|checked|released|verified|proved|done|bled)\b(?=.*\b(?:later|tomorrow|after|afterwards|next|soon)\b|\W*$)"
            + @"|\bno\W+time\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex NotDone();

    [GeneratedRegex(
        @"\b(?:did\W+not|didn'?t|does\W+not|doesn'?t|would\W+not|wouldn'?t|failed\W+to|fails\W+to|never|not)\W+(?:stop|stopped|stops|cut\W+(?:out|off)|trip|tripped|shut\W+(?:off|down))\b"
            + @"|\b(?:switch|switches|cut-?\W?outs?|interlocks?)\W+(?:is|are|was|were|does|do|did|has|have)?\W*(?:not\W+work(?:ing)?|n'?t\W+work(?:ing)?|failed|faulty|broken|dead|bridged|bypassed|inoperative|out\W+of\W+order)\b"
            + @"|\b(?:engine|reels?|machine|it)\W+(?:ran\W+on|kept\W+(?:on\W+)?(?:running|turning))\b(?!\W+(?:until|while|with|as\W+long)\b)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex NotStopped();

    // With nobody on the seat it stops: that it went on is what a cut-out is to prevent.
    [GeneratedRegex(
        @"(?<!\b(?:no|nothing|never|not|neither)\W+(?:\w+\W+)?)\b(?:(?:kept|keeps|stayed|stays|carried|carries|went|still)\W+(?:(?:on|running|turning|going)\W+)+|(?:ran|runs)\W+(?:on\W+)?)(?:with|when|after|though|while)\W+(?:(?:the|my|an?)\W+)*(?:seat\W+(?:(?:was|is)\W+)?(?:empty|off|left|free|unoccupied)|empty\W+seat|(?:nobody|no\W+one)\W+(?:on|in)\W+(?:the\W+)?seat|bail\W+(?:released|open|let\W+go|off)|brake\W+off)\b"
            + @"|^\W*(?:(?:still|just|then)\W+)?(?:kept|keeps|ran|carried|went)\W+(?:on|on\W+running|running|turning|on\W+turning)\W*$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex RanOn();
}
