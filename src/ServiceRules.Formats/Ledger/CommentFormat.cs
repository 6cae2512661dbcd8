using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Ledger;

/// <summary>The comment as a document.</summary>
public static class CommentFormat
{
    private static readonly ObjectShape<Comment> Root = Shape.Object<Comment>(
        "comment",
        "What somebody who oversees says of a record. It changes no verdict.",
        o =>
        {
            var record = o.Required("record", Terms.Identity, "the record", one => one.Record);
            var text = o.Required("text", Terms.Note, "what is said of it", one => one.Text);
            return v => new Comment(v.Get(record), v.Get(text));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Comment> Current { get; } = new("comment", 1, ReadLimits.Record, Root);
}
