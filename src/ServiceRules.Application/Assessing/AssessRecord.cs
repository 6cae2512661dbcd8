using System.Collections.Concurrent;
using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Assessing;

/// <summary>Judges records of one site by one rule book. Safe to share between threads.</summary>
public sealed class AssessRecord
{
    private readonly Judge judge;
    private readonly SiteRegisters site;
    private readonly WorkElsewhere? others;
    private readonly (RuleBook Value, CanonicalDocument Document) book;

    // What is judged for feedback is submitted next, and may be judged once more in its transaction.
    private const int RecentJudgements = 64;

    private readonly BoundedCache<(string, string, string), Assessed> recent = new(RecentJudgements);

    // Records of one year bring the same rules, and a rule book is long.
    private readonly ConcurrentDictionary<RuleBook, CanonicalDocument> written = new(
        ReferenceEqualityComparer.Instance
    );

    public AssessRecord(RuleBook book, SiteRegisters site, Judge? judge = null)
        : this(book, site, judge, null) { }

    private AssessRecord(RuleBook book, SiteRegisters site, Judge? judge, WorkElsewhere? others)
    {
        this.others = others;
        this.site = site;
        this.judge = judge ?? new Judge();
        this.book = (book, CanonicalForm.Of(RulePackFormat.Book.Write(book)));
    }

    /// <summary>The same, where each record is judged knowing where the others show its locks and people.</summary>
    public AssessRecord Beside(IEnumerable<ServiceRecord> records) =>
        new(book.Value, site, judge, WorkElsewhere.Of(records, site.Zone));

    /// <summary>
    /// The same, where the records are still as submitted. One that cannot be read tells nothing of the others; it is refused in
    /// its turn.
    /// </summary>
    public AssessRecord Beside(IEnumerable<ReadOnlyMemory<byte>> submitted)
    {
        ArgumentNullException.ThrowIfNull(submitted);
        return Beside(submitted.Select(ReadFor).OfType<ServiceRecord>().ToList());
    }

    internal SiteRegisters Site => site;

    /// <summary>The parts in which a context that lies beside a record is other than the site's registers; it is not judged with.</summary>
    public ImmutableArray<string> Differing(ServiceRecord record, AssessmentContext beside) =>
        BroughtContext.Differing(site, record, beside);

    /// <summary>Reads and judges a record as submitted.</summary>
    public AssessOutcome Assess(ReadOnlyMemory<byte> bytes) => Assess(bytes, Assess);

    /// <summary>The same, knowing what others show, which may depend on the record.</summary>
    internal AssessOutcome Assess(ReadOnlyMemory<byte> bytes, Func<ServiceRecord, WorkElsewhere> beside) =>
        Assess(
            bytes,
            (record, document) =>
            {
                var context = ContextFreezer.Freeze(site, record, beside(record));
                return Recently((record, document), context, book);
            }
        );

    /// <summary>Judges what was judged before by the same rules, in another context.</summary>
    internal Assessed Again(Assessed before, AssessmentContext context) =>
        Recently((before.Record, before.Evidence.Record), context, (before.Book, before.Evidence.Rules));

    /// <summary>The rules that judge here.</summary>
    internal (RuleBook Value, CanonicalDocument Document) Rules => book;

    /// <summary>Judges by the rules here what was judged by others, in the context that was frozen for it then.</summary>
    internal Assessed ByTheseRules(
        (ServiceRecord Value, CanonicalDocument Document) record,
        (AssessmentContext Value, CanonicalDocument Document) context
    ) => judge.Decide(record, context, book);

    /// <summary>The rules that judge here, where they have this digest.</summary>
    internal (RuleBook Value, CanonicalDocument Document)? BookOf(string digest) =>
        book.Document.Hash.ToString() == digest ? book : null;

    private AssessOutcome Assess(
        ReadOnlyMemory<byte> bytes,
        Func<ServiceRecord, CanonicalDocument, Assessed> assess
    )
    {
        var read = RecordFormat.Current.Read(bytes);
        if (!read.TryGet(out var record, out var source, out var problems))
        {
            return new AssessOutcome.Refused(problems);
        }

        var dangling = RecordReferences.Check(record, source, book.Value);
        return dangling.IsEmpty
            ? new AssessOutcome.Judged(assess(record, CanonicalForm.Of(bytes.Span)))
            : new AssessOutcome.Refused(dangling);
    }

    /// <summary>Judges a record that was made here, not read.</summary>
    public Assessed Assess(ServiceRecord record) =>
        Assess(record, CanonicalForm.Of(RecordFormat.Current.Write(record)));

    /// <summary>
    /// Judges a record with the context and the rules that it came with; what it did not bring is taken from the site,
    /// as for a first assessment.
    /// </summary>
    public Assessed Assess(ServiceRecord record, AssessmentContext? frozen, RuleBook? brought)
    {
        var context = frozen ?? ContextFreezer.Freeze(site, record, others);
        return judge.Decide(
            (record, CanonicalForm.Of(RecordFormat.Current.Write(record))),
            (context, CanonicalForm.Of(ContextFormat.Current.Write(context))),
            brought is null ? book : Brought(brought)
        );
    }

    /// <summary>
    /// Judges a record as it lies in a file, with the context and the rules that it came with; what it did not bring is
    /// taken from the site.
    /// </summary>
    public Assessed Assess(FiledRecord filed)
    {
        ArgumentNullException.ThrowIfNull(filed);
        var context = BroughtContext.Of(filed, site) ?? ContextFreezer.Freeze(site, filed.Record);
        return judge.Decide(
            (filed.Record, filed.Document),
            (context, CanonicalForm.Of(ContextFormat.Current.Write(context))),
            filed.Book is null ? book : Brought(filed.Book)
        );
    }

    private Assessed Assess(ServiceRecord record, CanonicalDocument document)
    {
        var context = ContextFreezer.Freeze(site, record, others);
        var frozen = CanonicalForm.Of(ContextFormat.Current.Write(context));
        return judge.Decide((record, document), (context, frozen), book);
    }

    private Assessed Recently(
        (ServiceRecord Value, CanonicalDocument Document) record,
        AssessmentContext context,
        (RuleBook Value, CanonicalDocument Document) rules
    )
    {
        var frozen = CanonicalForm.Of(ContextFormat.Current.Write(context));
        return recent.GetOrMake(
            (record.Document.Hash.ToString(), frozen.Hash.ToString(), rules.Document.Hash.ToString()),
            () => judge.Decide(record, (context, frozen), rules)
        );
    }

    // Where locks and people were stands in the timeline: what was done to the units is not kept for it.
    private static ServiceRecord? ReadFor(ReadOnlyMemory<byte> bytes) =>
        RecordFormat.Current.Read(bytes).TryGet(out var record, out _, out _)
            ? record with
            {
                Units = [],
            }
            : null;

    private (RuleBook, CanonicalDocument) Brought(RuleBook brought) =>
        (brought, written.GetOrAdd(brought, one => CanonicalForm.Of(RulePackFormat.Book.Write(one))));
}
