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
        };
}
