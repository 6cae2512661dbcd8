using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Consequences;
using ServiceRules.Engine.Judging;
using ServiceRules.Engine.Planning;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine;

/// <summary>
/// Judges records: which rules apply, whether each is met, and what follows. A function of its inputs; safe to share
/// between threads, and worth sharing, since the rules of a configuration are compiled on first use and kept.
/// </summary>
public sealed class RuleEngine
{
    /// <summary>
    /// Stands in the reasons of what nothing else keeps from release, on a job that nobody has signed off.
    /// </summary>
    public const string OpenJob = "open-job";

    /// <summary>
    /// Stands in the reasons of a job that names a task which no unit had, each being named with tasks of its own: nothing was
    /// judged by that task.
    /// </summary>
    public const string TaskOfNoUnit = "task-of-no-unit";

    /// <summary>
    /// Stands in the reasons of a unit of which no rule judged anything, and of the whole that it belongs to: nothing
    /// that nobody asked about is released.
    /// </summary>
    public const string NoRule = "no-rule";

    // Configurations kept compiled at once: seasons of a site, or the sites of one service.
    private const int MostPlans = 16;

    private readonly BoundedCache<string, CompiledPlan> _plans = new(MostPlans, StringComparer.Ordinal);
    private readonly Func<Rule, JobFrame, UnitFrame?, CheckOutcome> _evaluate;

    /// <summary>An engine with nothing compiled yet.</summary>
    public RuleEngine()
        : this(CheckEvaluation.Evaluate) { }

    internal RuleEngine(Func<Rule, JobFrame, UnitFrame?, CheckOutcome> evaluate) => _evaluate = evaluate;

    /// <summary>
    /// Compiles what judging needs, so that the first record does not wait for it.
    /// </summary>
    /// <param name="packs">The packs of the configuration.</param>
    /// <param name="jurisdictions">Identity texts of the jurisdiction packs in force.</param>
    /// <param name="packsDigest">Content digest of packs and limit sheets.</param>
    /// <exception cref="EngineFaultException">The rules do not compile.</exception>
    public void Prepare(
        ImmutableArray<RulePack> packs,
        ImmutableArray<string> jurisdictions,
        string packsDigest
    )
    {
        Conclusions.Prepare();
        Plan(packs, jurisdictions, packsDigest);
    }

    /// <summary>Judges one record.</summary>
    /// <param name="record">The record, read without problems.</param>
    /// <param name="context">The frozen registers.</param>
    /// <param name="book">Packs and limit sheets; every sheet that the record names is among them.</param>
    /// <param name="digests">Content digests of the three.</param>
    /// <exception cref="EngineFaultException">The engine failed.</exception>
    public Assessment Assess(
        ServiceRecord record,
        AssessmentContext context,
        RuleBook book,
        AssessmentDigests digests
    ) => Assess(Frame(record, context, book), digests);

    private static JobFrame Frame(ServiceRecord record, AssessmentContext context, RuleBook book)
    {
        try
        {
            return FrameBuilder.Build(record, context, book);
        }
        catch (Exception fault)
            when (fault is ArgumentException or ArithmeticException or InvalidOperationException)
        {
            throw new EngineFaultException("what is known could not be built from the record", fault);
        }
    }

    /// <summary>Judges one record.</summary>
    /// <param name="frame">The record, its context, the rules in force and what is known.</param>
    /// <param name="digests">
    /// Content digests of the same record, context, and packs with sheets; the last identifies the configuration whose
    /// compiled rules are kept.
    /// </param>
    /// <exception cref="EngineFaultException">
    /// The engine failed. A check that throws is such a failure, never an outcome.
    /// </exception>
    public Assessment Assess(JobFrame frame, AssessmentDigests digests)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(digests);
        var plan = Plan(frame.Book.Packs, frame.Context.Jurisdictions, digests.Packs);
        var effects = new EffectRules(frame);
        var drafts = plan.For(frame).Select(applied => Draft(applied, frame, effects)).ToImmutableArray();
        var conclusions = Conclusions.From(drafts, frame);
        return new Assessment
        {
            Record = frame.Record.Id,
            State = frame.State,
            Digests = digests,
            Job = NeverReleasedWhileOpen(conclusions.OutcomeOf(new Subject.Job()), frame.State),
            Set = NeverReleasedWhileOpen(conclusions.OutcomeOf(new Subject.Set()), frame.State),
            Units =
            [
                .. frame.Units.Select(unit => new UnitOutcome(
                    unit.Work.Id,
                    NeverReleasedWhileOpen(conclusions.OutcomeOf(new Subject.Unit(unit.Work.Id)), frame.State)
                )),
            ],
            Findings =
            [
                .. drafts
                    .Select(draft => Concluded(draft, conclusions))
                    .OrderBy(finding => finding.Subject.Key, StringComparer.Ordinal)
                    .ThenBy(finding => finding.Rule, StringComparer.Ordinal),
            ],
        };
    }

    private CompiledPlan Plan(
        ImmutableArray<RulePack> packs,
        ImmutableArray<string> jurisdictions,
        string packsDigest
    ) =>
        _plans.GetOrMake(
            $"{packsDigest} {string.Join(' ', jurisdictions.Order(StringComparer.Ordinal))}",
            () => CompiledPlan.Compile(RulesInForce.Of(packs, jurisdictions))
        );

    private DraftFinding Draft(RuleOnSubject applied, JobFrame frame, EffectRules effects)
    {
        var rule = applied.Rule;
        var subject = applied.Subject;
        var outcome = Evaluate(applied, frame);
        var letOut = effects.Of(rule, subject, outcome.Verdict, applied.IsAsked);
        return new DraftFinding
        {
            Rule = rule,
            Unit = applied.Unit,
            IsAsked = applied.IsAsked,
            IfUnproven = effects.Of(rule, subject, Verdict.Unproven, applied.IsAsked),
            Finding = new Finding
            {
                Rule = rule.Id.Text,
                Subject = subject,
                Verdict = outcome.Verdict,
                Severity = rule.Severity,
                Effect = letOut.Effect,
                Reason = outcome.Reason,
                Statement = outcome.Statement,
                Comparisons = outcome.Comparisons,
                Evidence = outcome.Evidence,
                Remedy = outcome.Verdict is Verdict.Met or Verdict.NotApplicable ? null : outcome.Remedy,
                StillToDo = outcome.StillToDo,
                LetOut = letOut.By,
                Notices =
                [
                    .. outcome.Notices,
                    .. NotAsked(applied, outcome.Verdict),
                    .. effects.Refused(rule, subject, outcome.Verdict, applied.IsAsked),
                ],
            },
        };
    }

    /// <summary>Why something that the task does not ask for is told.</summary>
    private static IEnumerable<string> NotAsked(RuleOnSubject applied, Verdict verdict) =>
        (applied.IsAsked, verdict) switch
        {
            (false, Verdict.NotMet) =>
            [
                "this task does not ask for it; what was read and is out counts whatever the task",
            ],
            (false, Verdict.Unproven) =>
            [
                "this task does not ask for it, so it holds nothing; as read it is not proven in",
            ],
            _ => [],
        };

    private CheckOutcome Evaluate(RuleOnSubject applied, JobFrame frame)
    {
        try
        {
            var outcome = _evaluate(applied.Rule, frame, applied.Unit);
            return !applied.IsAsked && IsMissing(outcome)
                ? new CheckOutcome
                {
                    Verdict = Verdict.NotApplicable,
                    Reason = FindingReason.None,
                    Statement = $"{outcome.Statement}; this task does not ask for it",
                    Evidence = outcome.Evidence,
                }
                : outcome;
        }
        catch (Exception failure) when (failure is not EngineFaultException)
        {
            throw new EngineFaultException(
                $"rule `{applied.Rule.Id}` could not be judged on `{applied.Subject.Key}`: {failure.Message}",
                failure
            );
        }
    }

    /// <summary>What is not there, or has nothing to be held against, is missed only where it is asked for.</summary>
    private static bool IsMissing(CheckOutcome outcome) =>
        outcome
            is {
                Verdict: Verdict.Unproven,
                Reason: FindingReason.NotMeasured
                    or FindingReason.TooFewStations
                    or FindingReason.NoSettingInForce,
            };

    private static Finding Concluded(DraftFinding draft, Conclusions conclusions)
    {
        var finding = draft.Finding;
        if (conclusions.DoubtOn(draft.Key) is { } doubt)
        {
            finding = finding with
            {
                Verdict = Verdict.Unproven,
                Reason = FindingReason.Stale,
                Effect = draft.IfUnproven.Effect,
                LetOut = draft.IfUnproven.By,
                Statement =
                    $"{finding.Statement}; but a reading it rests on is stale, as `{doubt.Rule}` shows: check again",
                Remedy = new Remedy.ReadAgain(
                    doubt.Quantity,
                    [],
                    "a later adjustment made the reading stale"
                ),
            };
        }

        var waits = conclusions.WaitsOf(draft.Key).Select(wait => wait.Rule).Distinct().ToImmutableArray();
        return waits.IsEmpty
            ? finding
            : finding with
            {
                Remedy = new Remedy.Act(
                    $"settle {string.Join(" and ", waits.Select(rule => $"`{rule}`"))} first, since setting it shifts this; then read again"
                ),
            };
    }

    private static Outcome NeverReleasedWhileOpen(Outcome outcome, RecordState state) =>
        state == RecordState.Open && outcome.Disposition == Disposition.Release
            ? new Outcome(Disposition.Hold, [OpenJob])
            : outcome;
}
