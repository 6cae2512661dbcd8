using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Registers;

/// <summary>Sources of hazardous energy, as procedures and the register of machines name and describe them.</summary>
internal static class SourceShapes
{
    public static JsonShape<Id<EnergySource>> Name { get; } =
        Shape
            .Text(
                1,
                64,
                "[a-z][a-z0-9]*(_[a-z0-9]+)*",
                "small letters and digits joined by underscores",
                "engine_start"
            )
            .AsParsed(
                text =>
                    Terms.Kept(
                        new Id<EnergySource>(text),
                        text is not ("all" or "group_box"),
                        "this word has a meaning of its own in events",
                        "another name"
                    ),
                id => id.Text
            );

    public static ObjectShape<EnergySource> Source { get; } =
        Shape.Object<EnergySource>(
            "energy-source",
            "One source of hazardous energy, and how it is isolated and proven dead.",
            o =>
            {
                var id = o.Required("id", Name, "its name in events", s => s.Id);
                var title = o.Required("title", Terms.Title, "plain name", s => s.Title);
                var isolator = o.Optional(
                    "isolator",
                    Terms.Title,
                    "isolating device; left out: nothing to switch off, only to release or block",
                    s => s.Isolator
                );
                var lockable = o.Defaulted(
                    "lockable",
                    Shape.Flag,
                    false,
                    "whether the isolating device takes a lock",
                    s => s.Lockable
                );
                var stored = o.Defaulted(
                    "stored",
                    Shape.Flag,
                    false,
                    "whether energy stays stored after isolation",
                    s => s.Stored
                );
                var recheck = o.Optional(
                    "recheckMinutes",
                    Shape.Whole(1, 24 * 60),
                    "rechecked at least this often while work goes on, in minutes",
                    s => s.RecheckMinutes
                );
                var limit = o.Optional(
                    "recheckLimit",
                    Terms.Pressure,
                    "more than this is too much at a recheck",
                    s => s.RecheckLimit
                );
                var again = o.Defaulted(
                    "reaccumulates",
                    Shape.Flag,
                    false,
                    "whether stored energy can build up again; always so where `recheckMinutes` or `recheckLimit` is stated",
                    s => s.Reaccumulates && s.RecheckMinutes is null && s.RecheckLimit is null
                );
                var release = o.Optional(
                    "release",
                    Terms.Sentence,
                    "how it is dissipated or restrained",
                    s => s.Release
                );
                var proof = o.Required("proof", Terms.Sentence, "how zero energy is proven", s => s.Proof);
                o.Check(
                    v => !v.Get(lockable) || v.Get(isolator) is not null,
                    lockable,
                    "nothing here takes a lock",
                    "an `isolator` beside it"
                );
                o.Check(
                    v => !v.Get(stored) || v.Get(release) is not null,
                    stored,
                    "stored energy needs `release` beside it",
                    "how it is dissipated or restrained"
                );
                o.Check(
                    v => v.Get(stored) || (v.Get(recheck) is null && v.Get(limit) is null && !v.Get(again)),
                    stored,
                    "what is not stored cannot build up again",
                    "`stored` true, or no `recheckMinutes`, `recheckLimit` and `reaccumulates`"
                );
                return v => new EnergySource
                {
                    Id = v.Get(id),
                    Title = v.Get(title),
                    Isolator = v.Get(isolator),
                    Lockable = v.Get(lockable),
                    Stored = v.Get(stored),
                    RecheckMinutes = v.Get(recheck),
                    RecheckLimit = v.Get(limit),
                    Reaccumulates = v.Get(again),
                    Release = v.Get(release),
                    Proof = v.Get(proof),
                };
            }
        );
}
