using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Ledger;

/// <summary>
/// The entry of the log as a document. What is hashed into the tree is its canonical form (RFC 8785); readers of the
/// log refuse any other spelling.
/// </summary>
public static class LedgerEntryFormat
{
    /// <summary>The longest subject: a waiver's names its rule, its unit and its first day.</summary>
    public const int SubjectLength = 160;

    /// <summary>The largest whole number that every reader of JSON keeps.</summary>
    private const long LargestWhole = (1L << 53) - 1;

    private static readonly JsonShape<string> Pseudonym = Shape.Text(
        18,
        18,
        "p-[0-9a-f]{16}",
        "`p-` and 16 lower-case hexadecimal digits"
    );

    /// <summary>An account or key, as acts and entries name it.</summary>
    internal static JsonShape<string> SenderName { get; } =
        Shape.Text(
            1,
            64,
            "(account|key):[0-9a-f]{16}",
            "`account:` or `key:` and 16 lower-case hexadecimal digits"
        );

    private static readonly ObjectShape<CorrectedEntry> Corrected = Shape.Object<CorrectedEntry>(
        "corrected-entry",
        "An earlier entry that this one corrects.",
        o =>
        {
            var index = o.Required(
                "index",
                Shape.Whole(0L, LargestWhole),
                "its place in the log, counted from 0",
                c => c.Index
            );
            var content = o.Required("content", Terms.Digest, "digest of its content", c => c.Content);
            return v => new CorrectedEntry(v.Get(index), v.Get(content));
        }
    );

    private static readonly ObjectShape<EntrySender> Sender = Shape.Object<EntrySender>(
        "entry-sender",
        "Who sent it to a service that knew who sends.",
        o =>
        {
            var name = o.Required(
                "name",
                SenderName,
                "the account that had signed in, or the key that was shown",
                s => s.Name
            );
            var person = o.Optional(
                "person",
                Pseudonym,
                "pseudonym of the person of the register whom it stands for",
                s => s.Person
            );
            var place = o.Optional(
                "place",
                Shape.Text(
                    1,
                    32,
                    "/people/[0-9]{1,4}/id|/timeline/[0-9]{1,6}/by|/signOff/by",
                    "`/people/N/id`, `/timeline/N/by` or `/signOff/by`"
                ),
                "where the record names that person (RFC 6901)",
                s => s.Place
            );
            o.Needs(place, person);
            return v => new EntrySender(v.Get(name), v.Get(person), v.Get(place));
        }
    );

    private static readonly ObjectShape<LedgerEntry> Root = Shape.Object<LedgerEntry>(
        "ledger-entry",
        "One entry of the log. It names its content by digest, and people by pseudonym.",
        o =>
        {
            var kind = o.Required(
                "kind",
                Shape.Choice<EntryKind>("What an entry of the log is about."),
                "what it is about",
                e => e.Kind
            );
            var at = o.Required(
                "at",
                EntryInstant.Shape,
                "when it was appended, by the machine's clock",
                e => e.At
            );
            var by = o.Optional("by", Pseudonym, "pseudonym of who answers for it", e => e.By);
            var sender = o.Optional(
                "sender",
                Sender,
                "who sent it to a service that knew who sends; left out where no sign-in was checked",
                e => e.Sender
            );
            var subject = o.Required(
                "subject",
                Shape.Text(
                    1,
                    SubjectLength,
                    @"[A-Za-z0-9][A-Za-z0-9._\-]*",
                    "1 to 160 letters, digits, dots, hyphens and underscores, beginning with a letter or digit"
                ),
                "identity of the record, order, waiver, period, hold or pseudonym, or what an act was done to",
                e => e.Subject
            );
            var content = o.Required("content", Terms.Digest, "digest of its content", e => e.Content);
            var bytes = o.Required(
                "contentBytes",
                Shape.Whole(0L, LargestWhole),
                "length of its content",
                e => e.ContentBytes
            );
            var of = o.Optional(
                "of",
                Terms.Digest,
                "an assessment's record, a report's assessment, the jobs of the report of a period",
                e => e.Of
            );
            var corrects = o.Optional("corrects", Corrected, "the entry it corrects", e => e.Corrects);
            var reason = o.Optional("reason", Terms.Note, "why", e => e.Reason);
            o.NeededFor(kind, ["assessment", "report"], of);
            o.NeededFor(kind, ["amendment"], corrects);
            o.Needs(corrects, reason);
            o.OnlyFor(kind, ["record", "amendment"], sender);
            return v => new LedgerEntry
            {
                Kind = v.Get(kind),
                At = v.Get(at),
                By = v.Get(by),
                Sender = v.Get(sender),
                Subject = v.Get(subject),
                Content = v.Get(content),
                ContentBytes = v.Get(bytes),
                Of = v.Get(of),
                Corrects = v.Get(corrects),
                Reason = v.Get(reason),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<LedgerEntry> Current { get; } =
        new("ledger-entry", 1, ReadLimits.Record, Root);
}
