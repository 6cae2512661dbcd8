using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>The words in which formats are described.</summary>
public static class Shape
{
    /// <summary>A text of a stated form. The pattern matches the whole text.</summary>
    public static JsonShape<string> Text(
        int min,
        int max,
        string pattern,
        string accepted,
        params string[] examples
    ) => new TextShape(min, max, pattern, accepted, examples);

    /// <summary>Words for people on one line: not blank, nothing that cannot be seen.</summary>
    public static JsonShape<string> Line(int max) =>
        Words(max, allowBreaks: false, "text on one line, not blank");

    /// <summary>Words for people, on any number of lines.</summary>
    public static JsonShape<string> Prose(int max) => Words(max, allowBreaks: true, "text, not blank");

    /// <summary>A text that a function of the domain reads, such as a quantity with its unit.</summary>
    /// <param name="pattern">What every accepted text matches; the function may refuse more.</param>
    public static JsonShape<T> Read<T>(
        Func<string, Parsed<T>> read,
        Func<T, string> print,
        string pattern,
        string accepted,
        params string[] examples
    )
        where T : notnull =>
        new ConvertedShape<string, T>(new TextShape(1, 64, pattern, accepted, examples), read, print);

    /// <summary>One word of a closed vocabulary: the members of an enumeration, written like `key-removed`.</summary>
    public static JsonShape<TEnum> Choice<TEnum>(string description)
        where TEnum : struct, Enum =>
        new ChoiceShape<TEnum>(WordOf(typeof(TEnum).Name, '-'), description, WordsOf<TEnum>('-'));

    /// <summary>One word of a closed vocabulary: the members of an enumeration, written like `key_removed`.</summary>
    public static JsonShape<TEnum> SnakeChoice<TEnum>(string description)
        where TEnum : struct, Enum =>
        new ChoiceShape<TEnum>(WordOf(typeof(TEnum).Name, '-'), description, WordsOf<TEnum>('_'));

    /// <summary>Exactly one word.</summary>
    public static JsonShape<bool> Word(string word) =>
        new ChoiceShape<OneWord>(null, "", [(OneWord.TheWord, word)]).As(_ => true, _ => OneWord.TheWord);

    public static JsonShape<int> Whole(int min, int max, string description = "") =>
        As(new NumberShape(min, max, whole: true, description), number => (int)number, number => number);

    public static JsonShape<long> Whole(long min, long max, string description = "") =>
        As(new NumberShape(min, max, whole: true, description), number => (long)number, number => number);

    public static JsonShape<decimal> Number(decimal min, decimal max, string description = "") =>
        new NumberShape(min, max, whole: false, description);

    public static JsonShape<bool> Flag { get; } = new FlagShape();

    /// <summary>Any JSON value but null.</summary>
    public static JsonShape<JsonNode> Any { get; } = new AnyShape();

    /// <summary>A whole document of another format, carried as it stands.</summary>
    /// <param name="identifier">Its format and version, such as `service-record/1`.</param>
    public static JsonShape<JsonNode> Document(string identifier) => new DocumentShape(identifier);

    public static JsonShape<ImmutableArray<T>> List<T>(JsonShape<T> item, int min, int max)
        where T : notnull => new ListShape<T>(item, min, max);

    public static JsonShape<ImmutableSortedDictionary<string, T>> Map<T>(
        string namePattern,
        string nameAccepted,
        JsonShape<T> item,
        int max
    )
        where T : notnull => new MapShape<T>(namePattern, nameAccepted, item, max);

    /// <summary>An object: members are registered once, and the function returned builds it from their slots.</summary>
    public static ObjectShape<T> Object<T>(
        string name,
        string description,
        Func<ObjectMembers<T>, Func<MemberValues, T>> describe
    )
        where T : notnull => new(name, description, describe);

    /// <summary>An object of one of several kinds, told apart by the word in the member <paramref name="marker"/>.</summary>
    public static JsonShape<T> Variant<T>(
        string name,
        string description,
        string marker,
        params VariantCase<T>[] cases
    )
        where T : notnull => new VariantShape<T>(name, description, marker, cases);

    public static VariantCase<T> Case<T, TCase>(string word, ObjectShape<TCase> shape)
        where T : notnull
        where TCase : notnull, T => new ObjectCase<T, TCase>(word, shape);

    /// <summary>An object of one of several kinds, told apart by which of their key members it has.</summary>
    public static JsonShape<T> Keyed<T>(string name, string description, params KeyedCase<T>[] cases)
        where T : notnull => new KeyedShape<T>(name, description, cases);

    public static KeyedCase<T> Keyed<T, TCase>(string key, ObjectShape<TCase> shape)
        where T : notnull
        where TCase : notnull, T => new KeyedObject<T, TCase>(key, shape);

    /// <summary>A value with a short form, which is a text, and a long form, which is an object or a list.</summary>
    public static JsonShape<T> Either<T>(JsonShape<T> brief, JsonShape<T> full, Func<T, bool> isBrief)
        where T : notnull => new EitherShape<T>(brief, full, isBrief);

    /// <summary>The same JSON seen as another type, by functions that cannot fail.</summary>
    public static JsonShape<T> As<TCarrier, T>(
        this JsonShape<TCarrier> carrier,
        Func<TCarrier, T> read,
        Func<T, TCarrier> print
    )
        where TCarrier : notnull
        where T : notnull => new ConvertedShape<TCarrier, T>(carrier, one => Parsed<T>.Of(read(one)), print);

    /// <summary>The same JSON seen as another type, by a function that may refuse it.</summary>
    public static JsonShape<T> AsParsed<TCarrier, T>(
        this JsonShape<TCarrier> carrier,
        Func<TCarrier, Parsed<T>> read,
        Func<T, TCarrier> print
    )
        where TCarrier : notnull
        where T : notnull => new ConvertedShape<TCarrier, T>(carrier, read, print);

    /// <summary>A value that names a thing of a kind for the whole document.</summary>
    public static JsonShape<T> Declares<T>(this JsonShape<T> shape, string kind, Func<T, string> identity)
        where T : notnull => new NamingShape<T>(shape, kind, declares: true, identity);

    /// <summary>A value that must name a thing of a kind that the document lists, before or after it.</summary>
    public static JsonShape<T> RefersTo<T>(this JsonShape<T> shape, string kind, Func<T, string> identity)
        where T : notnull => new NamingShape<T>(shape, kind, declares: false, identity);

    /// <summary>The word of an enumeration member: `KeyRemoved` becomes `key-removed`.</summary>
    internal static string WordOf(string member, char joint)
    {
        StringBuilder word = new();
        foreach (char letter in member)
        {
            if (char.IsAsciiLetterUpper(letter) && word.Length > 0)
            {
                word.Append(joint);
            }

            word.Append(char.ToLowerInvariant(letter));
        }

        return word.ToString();
    }

    private static TextShape Words(int max, bool allowBreaks, string accepted)
    {
        string unseen = UnseenCharacters.Class;
        string any = $"[^{unseen}{(allowBreaks ? "" : @"\t\n\r")}]*";
        string pattern = any + $@"[^{unseen}\t\n\r ]" + any;
        return new(1, max, pattern, accepted, [], text => UnseenCharacters.AreAbsentFrom(text, allowBreaks));
    }

    private static IEnumerable<(TEnum Value, string Word)> WordsOf<TEnum>(char joint)
        where TEnum : struct, Enum =>
        Enum.GetValues<TEnum>().Select(value => (value, WordOf(value.ToString(), joint)));

    private enum OneWord
    {
        TheWord,
    }
}
