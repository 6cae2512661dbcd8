using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json;

/// <summary>
/// A kind of document with a version: strict reader, writer and published schema from one description. Each document
/// says which it is in its first member, `format`; `$schema` may stand beside it for editors and means nothing here.
/// </summary>
public sealed class DocumentFormat<T>
    where T : notnull
{
    private const string FormatName = "format";
    private const string SchemaName = "$schema";

    private static readonly JsonWriterOptions Writing = new()
    {
        Indented = true,
        NewLine = "\n",
        // `µ` and `é` stay readable; these documents are files, never parts of a page.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private static readonly string[] Markers = [FormatName, SchemaName];

    private readonly ObjectShape<T> root;
    private readonly ReadLimits limits;

    /// <param name="name">The kind of document, such as `service-record`.</param>
    /// <param name="version">Its version; a later version is another format that may share shapes with this one.</param>
    public DocumentFormat(string name, int version, ReadLimits limits, ObjectShape<T> root)
    {
        Name = name;
        Version = version;
        this.limits = limits;
        this.root = root;
    }

    public string Name { get; }

    public int Version { get; }

    /// <summary>Kind and version as the document states them, such as `service-record/1`.</summary>
    public string Identifier =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Name}/{Version}");

    /// <summary>Reads a document. No input makes it throw; every problem that the syntax lets be seen is told at once.</summary>
    public ReadOutcome<T> Read(ReadOnlyMemory<byte> bytes)
    {
        ProblemList problems = new();
        SourceDocument? document = SourceReader.Read(bytes, limits, problems);
        if (document is null)
        {
            return ReadOutcome<T>.Refused(problems.ToReport());
        }

        ReadContext context = new(document, problems);
        // Against another format's members every line would be wrong: the wrong format is the one thing to tell.
        if (!IsThisFormat(document.Root, context))
        {
            return ReadOutcome<T>.Refused(problems.ToReport());
        }

        bool read = root.TryRead(document.Root, context, Markers, out T? value);
        context.CheckReferences();
        return read && problems.IsEmpty
            ? ReadOutcome<T>.Accepted(value!, document)
            : ReadOutcome<T>.Refused(problems.ToReport());
    }

    /// <summary>Reads at most one byte more than the bound from a stream, so that size alone never costs memory.</summary>
    public ReadOutcome<T> Read(Stream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using MemoryStream held = new();
        byte[] block = new byte[64 * 1024];
        int count;
        while ((count = stream.Read(block)) > 0)
        {
            held.Write(block, 0, count);
            if (held.Length > limits.Bytes)
            {
                return ReadOutcome<T>.Refused(ProblemReport.Of(SourceReader.TooLarge(limits)));
            }
        }

        return Read(held.ToArray());
    }

    /// <summary>The document as UTF-8 text: indented, members in their described order, ending with a line break.</summary>
    public byte[] Write(T value) => Write(value, null);

    /// <summary>
    /// The document as people edit it: members in their described order, what is said by leaving it out left out, short
    /// lists and objects on one line.
    /// </summary>
    /// <param name="value">What it says.</param>
    /// <param name="schema">Where an editor finds the schema; null: it names none.</param>
    public byte[] WriteLaidOut(T value, string? schema) => DocumentLayout.Of(Write(value, schema));

    private byte[] Write(T value, string? schema)
    {
        using MemoryStream written = new();
        using (Utf8JsonWriter writer = new(written, Writing))
        {
            writer.WriteStartObject();
            if (schema is not null)
            {
                writer.WriteString(SchemaName, schema);
            }

            writer.WriteString(FormatName, Identifier);
            root.WriteMembers(writer, value);
            writer.WriteEndObject();
        }

        written.WriteByte((byte)'\n');
        return written.ToArray();
    }

    /// <summary>Where an editor finds the schema of a document, if the document says so.</summary>
    public static string? SchemaOf(SourceDocument document)
    {
        ArgumentNullException.ThrowIfNull(document);
        return document.Root.Member(SchemaName)?.Content;
    }

    /// <summary>The JSON Schema (2020-12) of the format, as the text of a file.</summary>
    /// <param name="said">What a word of a closed vocabulary means, as hover text; left out: the words are stated bare.</param>
    public string Schema(Func<Enum, string?>? said = null)
    {
        SchemaDefinitions definitions = new(said);
        JsonObject body = root.Body(definitions, (FormatName, Identifier));
        JsonObject schema = new()
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$id"] = $"urn:servicerules:{Name}:{Version}",
            ["title"] = Identifier,
        };
        foreach ((string key, JsonNode? part) in body)
        {
            schema[key] = part?.DeepClone();
        }

        schema["properties"]![SchemaName] = new JsonObject
        {
            ["type"] = "string",
            ["description"] = "where an editor finds this schema",
        };
        schema["$defs"] = definitions.ToSchema();
        using MemoryStream written = new();
        using (Utf8JsonWriter writer = new(written, Writing))
        {
            schema.WriteTo(writer);
        }

        written.WriteByte((byte)'\n');
        return System.Text.Encoding.UTF8.GetString(written.ToArray());
    }

    /// <summary>The version that a document of this kind says it is.</summary>
    private int? VersionIn(SourceNode format) =>
        format.Kind == SourceKind.Text
        && format.Content.StartsWith(Name + "/", StringComparison.Ordinal)
        && int.TryParse(
            format.Content.AsSpan(Name.Length + 1),
            System.Globalization.NumberStyles.None,
            System.Globalization.CultureInfo.InvariantCulture,
            out int version
        )
            ? version
            : null;

    private bool IsThisFormat(SourceNode top, ReadContext context)
    {
        if (top.Kind != SourceKind.Object)
        {
            context.Report(top, ProblemCode.WrongType, "the document is not an object", "an object");
            return false;
        }

        SourceNode? format = top.Member(FormatName);
        if (format is null)
        {
            context.Report(
                top,
                ProblemCode.Format,
                $"`{FormatName}` is missing",
                $"\"{FormatName}\": \"{Identifier}\""
            );
            return false;
        }

        if (format.Kind != SourceKind.Text || format.Content != Identifier)
        {
            (string what, string accepted) = VersionIn(format) switch
            {
                { } version when version > Version => (
                    "this was written for a later version of the program, which may say things that this one does not know",
                    $"{Identifier}; or a later version of the program, which reads this one too"
                ),
                not null => ("there is no such version of this format", Identifier),
                _ => ("this is another kind of document", Identifier),
            };
            context.Report(format, ProblemCode.Format, what, accepted);
            return false;
        }

        if (top.Member(SchemaName) is { } schema && schema.Kind != SourceKind.Text)
        {
            context.Report(
                schema,
                ProblemCode.WrongType,
                "this is no address",
                "where an editor finds the schema"
            );
        }

        return true;
    }
}
