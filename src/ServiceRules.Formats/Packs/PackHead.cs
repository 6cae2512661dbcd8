using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Packs;

/// <summary>What a pack says of itself, wherever its rules stand.</summary>
internal sealed class PackHead
{
    private readonly Slot<Id<RulePack>> id;
    private readonly Slot<string> version;
    private readonly Slot<string> title;
    private readonly Slot<PackLayer> layer;
    private readonly Slot<string?> precedence;
    private readonly Slot<DateOnly?> from;
    private readonly Slot<DateOnly?> until;

    public PackHead(ObjectMembers<RulePack> members)
    {
        id = members.Required("id", Terms.Id<RulePack>(), "the pack's identity", p => p.Id);
        version = members.Required(
            "version",
            Shape.Text(1, 32, @"[0-9]+(\.[0-9]+){0,3}", "numbers joined by dots", "1.0.0"),
            "its version, for people",
            p => p.Version
        );
        title = members.Required("title", Terms.Title, "its title", p => p.Title);
        layer = members.Required(
            "layer",
            Shape.Choice<PackLayer>("Layers, lowest first. A site pack may tighten or add, never loosen."),
            "its layer",
            p => p.Layer
        );
        precedence = members.Optional(
            "precedence",
            Terms.Sentence,
            "what comes before its citations, in words for readers; needed on a jurisdiction pack",
            p => p.Precedence
        );
        from = members.Optional(
            "from",
            Terms.Day,
            "of a jurisdiction pack: first day on which the text is in force as it is cited; left out: since ever",
            p => p.From
        );
        until = members.Optional(
            "until",
            Terms.Day,
            "of a jurisdiction pack: last day on which it is in force as it is cited; left out: until further notice",
            p => p.Until
        );
        members.Check(
            v => v.Get(from) is not { } first || v.Get(until) is not { } last || first <= last,
            until,
            "the last day is before the first",
            "`from` or later"
        );
        members.Check(
            v => v.Get(layer) is PackLayer.Jurisdiction || v.Get(from) is null,
            from,
            "only the text of a jurisdiction is dated as a whole; rules carry days of their own in `when`",
            "no `from` on a pack of this layer"
        );
        members.Check(
            v => v.Get(layer) is PackLayer.Jurisdiction || v.Get(until) is null,
            until,
            "only the text of a jurisdiction is dated as a whole; rules carry days of their own in `when`",
            "no `until` on a pack of this layer"
        );
    }

    public RulePack Build(MemberValues values, ImmutableArray<Rule> rules) =>
        new()
        {
            Id = values.Get(id),
            Version = values.Get(version),
            Title = values.Get(title),
            Layer = values.Get(layer),
            Rules = rules,
            Precedence = values.Get(precedence),
            From = values.Get(from),
            Until = values.Get(until),
        };
}
