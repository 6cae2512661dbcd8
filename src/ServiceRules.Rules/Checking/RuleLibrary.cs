using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>All that a folder of rules holds, each part with where it stands: what the checks look at.</summary>
public sealed record RuleLibrary
{
    /// <summary>The packs.</summary>
    public ImmutableArray<PlacedPack> Packs { get; init; } = [];

    /// <summary>The limit sheets.</summary>
    public ImmutableArray<Placed<LimitSheet>> Sheets { get; init; } = [];

    /// <summary>What the cases beside the rules promise.</summary>
    public ImmutableArray<Placed<ExpectedVerdict>> Cases { get; init; } = [];

    /// <summary>Identity texts of the jurisdiction packs that the site names.</summary>
    public ImmutableArray<Placed<string>> Jurisdictions { get; init; } = [];

    /// <summary>The setting orders.</summary>
    public ImmutableArray<Placed<SettingOrder>> Orders { get; init; } = [];

    /// <summary>The written procedures.</summary>
    public ImmutableArray<Placed<Procedure>> Procedures { get; init; } = [];

    /// <summary>The people.</summary>
    public ImmutableArray<Placed<RegisteredPerson>> People { get; init; } = [];

    /// <summary>The locks.</summary>
    public ImmutableArray<Placed<RegisteredLock>> Locks { get; init; } = [];

    /// <summary>The waivers.</summary>
    public ImmutableArray<Placed<Waiver>> Waivers { get; init; } = [];

    /// <summary>The machines.</summary>
    public ImmutableArray<Placed<RegisteredMachine>> Machines { get; init; } = [];

    /// <summary>The gauges that the site owns.</summary>
    public ImmutableArray<Placed<RegisteredInstrument>> Instruments { get; init; } = [];

    /// <summary>What judges a record: the packs in the order of their layers and identities, and the sheets by identity.</summary>
    public RuleBook Book =>
        new(
            [.. Packs.Select(placed => placed.Pack).OrderBy(pack => pack.Layer).ThenBy(pack => pack.Id)],
            [.. Sheets.Select(placed => placed.Value).OrderBy(sheet => sheet.Id)]
        );

    /// <summary>Every rule of every pack.</summary>
    internal IEnumerable<Placed<Rule>> Rules => Packs.SelectMany(pack => pack.Rules);
}
