using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Ledger;

/// <summary>The act as a document.</summary>
public static class LoggedActFormat
{
    /// <summary>The longest of who did it, and of what it was done to.</summary>
    public const int NameMost = 160;

    /// <summary>The longest of what else is told.</summary>
    public const int DetailMost = 1_000;

    private static readonly ObjectShape<LoggedAct> Root = Shape.Object<LoggedAct>(
        "act",
        "Something was done that only some may do. Accounts and keys stand here by what was drawn for them, never by name.",
        o =>
        {
            var at = o.Required("at", EntryInstant.Shape, "when", act => act.At);
            var what = o.Required(
                "what",
                Shape.Text(
                    1,
                    64,
                    "[a-z][a-z0-9]*(-[a-z0-9]+)*",
                    "lower-case words with hyphens between them"
                ),
                "which act",
                act => act.What
            );
            var by = o.Required("by", Shape.Line(NameMost), "who did it", act => act.By);
            var about = o.Required("about", Shape.Line(NameMost), "what it was done to", act => act.About);
            var detail = o.Optional(
                "detail",
                Shape.Prose(DetailMost),
                "which roles were given, or why",
                act => act.Detail
            );
            return v => new LoggedAct(v.Get(at), v.Get(what), v.Get(by), v.Get(about))
            {
                Detail = v.Get(detail),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<LoggedAct> Current { get; } = new("act", 1, ReadLimits.Record, Root);
}
