using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>What people read for the closed words of records and verdicts. A test holds that none is missing.</summary>
public static class ReportWords
{
    public static string Of(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.Clearance => "clearance",
            MeasuredQuantity.HeightOfCut => "height of cut",
            MeasuredQuantity.FrontRoller => "front roller",
            MeasuredQuantity.ShieldGap => "shield gap",
            MeasuredQuantity.BrushGap => "brush gap",
            MeasuredQuantity.GroomerHeight => "groomer height",
            MeasuredQuantity.ReelDiameter => "reel diameter",
            MeasuredQuantity.BedknifeLip => "bedknife lip",
            MeasuredQuantity.LandWidth => "land width",
            MeasuredQuantity.BearingPlay => "bearing play",
            MeasuredQuantity.Attitude => "bedknife attitude",
            MeasuredQuantity.Edge => "edge",
            MeasuredQuantity.FrontRollerOnPlate => "front roller on the plate",
            MeasuredQuantity.RearRollerOnPlate => "rear roller on the plate",
            MeasuredQuantity.Guards => "guards",
            _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, null),
        };

    /// <summary>What a figure is: the quantity, or what was worked out of it.</summary>
    internal static string Of(MeasuredQuantity quantity, FigureKind kind) =>
        kind switch
        {
            FigureKind.Itself => Of(quantity),
            FigureKind.AboveOther when quantity == MeasuredQuantity.GroomerHeight => "groomer to height",
            FigureKind.AboveOther => $"{Of(quantity)}, difference",
            FigureKind.OutOfParallel when quantity == MeasuredQuantity.FrontRoller => "roller parallel",
            FigureKind.OutOfParallel => $"{Of(quantity)}, parallel",
            FigureKind.Spread => $"{Of(quantity)}, spread",
            FigureKind.Form => $"{Of(quantity)}, form",
            FigureKind.Twist => "rollers, twist",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    public static string Of(UncertaintySource source) =>
        source switch
        {
            UncertaintySource.Calibration => "certificate",
            UncertaintySource.Resolution => "step shown",
            UncertaintySource.ZeroCheck => "zero check",
            UncertaintySource.Repeatability => "repeatability",
            UncertaintySource.Reading => "reading",
            UncertaintySource.Movement => "steps turned since",
            UncertaintySource.Temperature => "temperature",
            UncertaintySource.Scale => "scale without a certificate",
            UncertaintySource.ZeroDrift => "drift of the zero",
            UncertaintySource.Scatter => "scatter about the line",
            UncertaintySource.ZeroUnchecked => "zero, taken for want of a check",
            UncertaintySource.RepeatabilityUnstated => "repeatability, taken for want of one",
            _ => throw new ArgumentOutOfRangeException(nameof(source), source, null),
        };

    public static string Of(AdjusterKind adjuster) =>
        adjuster switch
        {
            AdjusterKind.Clearance => "clearance",
            AdjusterKind.Height => "height of cut",
            AdjusterKind.HeightRange => "height range",
            AdjusterKind.FrontRoller => "front roller",
            AdjusterKind.BedknifePosition => "bedknife position",
            AdjusterKind.Groomer => "groomer",
            AdjusterKind.Brush => "brush",
            AdjusterKind.Shield => "shield",
            AdjusterKind.Bearings => "reel bearings",
            _ => throw new ArgumentOutOfRangeException(nameof(adjuster), adjuster, null),
        };

    public static string Of(ServiceTask task) =>
        task switch
        {
            ServiceTask.DailyCheck => "daily check",
            ServiceTask.HeightCheck => "height check",
            ServiceTask.HeightChange => "height change",
            ServiceTask.TouchUp => "touch-up",
            ServiceTask.FullService => "full service",
            ServiceTask.Grind => "grind",
            ServiceTask.Lap => "lap",
            ServiceTask.ClearBlockage => "clear a blockage",
            ServiceTask.Inspect => "inspect",
            ServiceTask.SeasonalOverhaul => "seasonal overhaul",
            _ => throw new ArgumentOutOfRangeException(nameof(task), task, null),
        };

    public static string Of(JobRole role) =>
        role switch
        {
            JobRole.Performs => "did the work",
            JobRole.Assists => "helped",
            JobRole.Leads => "leads",
            JobRole.Affected => "affected",
            JobRole.Officer => "safety officer",
            _ => throw new ArgumentOutOfRangeException(nameof(role), role, null),
        };

    public static string Of(Attachment attachment) =>
        attachment switch
        {
            Attachment.Groomer => "groomer",
            Attachment.RollerBrush => "roller brush",
            Attachment.Shield => "shield",
            _ => throw new ArgumentOutOfRangeException(nameof(attachment), attachment, null),
        };

    public static string Of(WorkPlace place) =>
        place switch
        {
            WorkPlace.OnMachine => "on the machine",
            WorkPlace.OnBench => "on the bench",
            _ => throw new ArgumentOutOfRangeException(nameof(place), place, null),
        };

    public static string Of(RecordState state) =>
        state switch
        {
            RecordState.Open => "open, in progress",
            RecordState.SignedOff => "signed off",
            RecordState.FollowedUp => "signed off and re-checked",
            _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
        };

    public static string Of(AdjustDirection direction) =>
        direction switch
        {
            AdjustDirection.Open => "open",
            AdjustDirection.Close => "close",
            AdjustDirection.Raise => "up",
            AdjustDirection.Lower => "down",
            _ => throw new ArgumentOutOfRangeException(nameof(direction), direction, null),
        };

    public static string Of(Side side) =>
        side switch
        {
            Side.Left => "left",
            Side.Right => "right",
            Side.Both => "both sides",
            _ => throw new ArgumentOutOfRangeException(nameof(side), side, null),
        };

    public static string Of(GrindingKind kind) =>
        kind switch
        {
            GrindingKind.ReelSpin => "reel spun on the stone",
            GrindingKind.ReelRelief => "relief ground",
            GrindingKind.BedknifeTop => "bedknife top face ground",
            GrindingKind.BedknifeFront => "bedknife front face ground",
            GrindingKind.Lapping => "lapped",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    public static string Of(PartKind part) =>
        part switch
        {
            PartKind.Bedknife => "bedknife",
            PartKind.Reel => "reel",
            PartKind.ReelBearing => "reel bearing",
            PartKind.RollerBearing => "roller bearing",
            PartKind.Roller => "roller",
            PartKind.Seal => "seal",
            PartKind.Brush => "roller brush",
            PartKind.GroomerBlades => "groomer blades",
            PartKind.Guard => "guard or shield",
            PartKind.Other => "other part",
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, null),
        };

    public static string Of(ContactState contact) =>
        contact switch
        {
            ContactState.None => "no contact",
            ContactState.Light => "light contact",
            ContactState.Partial => "partial contact",
            ContactState.Heavy => "heavy contact",
            _ => throw new ArgumentOutOfRangeException(nameof(contact), contact, null),
        };

    public static string Of(PaperResult result) =>
        result switch
        {
            PaperResult.Cuts => "paper cut clean",
            PaperResult.Nips => "paper nipped, not cut",
            PaperResult.Misses => "paper not touched",
            _ => throw new ArgumentOutOfRangeException(nameof(result), result, null),
        };

    public static string Of(Condition condition) =>
        condition switch
        {
            Condition.Sound => "sound",
            Condition.Faulty => "faulty",
            _ => throw new ArgumentOutOfRangeException(nameof(condition), condition, null),
        };

    public static string Of(InstrumentKind kind) =>
        kind switch
        {
            InstrumentKind.FeelerGauge => "feelers",
            InstrumentKind.HeightGauge => "height gauge",
            InstrumentKind.Calliper => "calliper",
            InstrumentKind.Micrometer => "micrometer",
            InstrumentKind.DiameterTape => "diameter tape",
            InstrumentKind.DialGauge => "dial gauge",
            InstrumentKind.DepthGauge => "depth gauge",
            InstrumentKind.AngleGauge => "angle gauge",
            InstrumentKind.BenchPlate => "bench plate",
            InstrumentKind.PaperStrip => "paper strip",
            InstrumentKind.FixedSizePiece => "piece of fixed size",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    public static string Of(EntryMark mark) =>
        mark switch
        {
            EntryMark.AtTheTime => "entered at the time",
            EntryMark.LateEntry => "late entry",
            EntryMark.Transcription => "copied from paper",
            EntryMark.DeviceOffline => "entered offline",
            _ => throw new ArgumentOutOfRangeException(nameof(mark), mark, null),
        };

    public static string Of(BasisKind kind) =>
        kind switch
        {
            BasisKind.Published => "published",
            BasisKind.Manual => "the unit's own manual",
            BasisKind.SitePolicy => "site policy",
            BasisKind.CommonPractice => "common practice, no source",
            BasisKind.FromMemory => "from memory",
            BasisKind.Derived => "derived",
            BasisKind.Duty => "a duty of safe work, local codes come first",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    /// <summary>The plain words of a timeline event: its name with spaces, which is how the vocabulary was chosen.</summary>
    public static string Of(TimelineEventKind kind) =>
        kind switch
        {
            TimelineEventKind.AffectedNotifiedBefore => "affected people told",
            TimelineEventKind.EnergyReviewed => "energies and controls gone over",
            TimelineEventKind.SeenAtRest => "everything seen at rest",
            TimelineEventKind.StoredEnergyReleased => "stored energy released",
            TimelineEventKind.IsolationVerified => "proven that nothing moves",
            TimelineEventKind.StoredEnergyRechecked => "stored energy checked again",
            TimelineEventKind.BlockageClearedWithTool => "blockage cleared with a tool",
            TimelineEventKind.BlockageClearedByHand => "blockage cleared by hand",
            TimelineEventKind.AreaInspected => "tools and parts clear",
            TimelineEventKind.GuardsRefitted => "guards back",
            TimelineEventKind.CutOutsProved => "cut-outs proved",
            TimelineEventKind.PeopleClearChecked => "people clear",
            TimelineEventKind.ExposureChecked => "group accounted for",
            TimelineEventKind.RemovalNotified => "affected people told of removal",
            TimelineEventKind.TestEnergised => "energised for a test",
            TimelineEventKind.TestEnded => "test ended, de-energised",
            TimelineEventKind.EnergisedTaskPerformed => "work on the running reel, no hands",
            TimelineEventKind.AlternativeMeasuresRecorded => "other measures in place",
            TimelineEventKind.PrimaryAssigned => "one person made responsible",
            TimelineEventKind.WorkStarted => "hands-on work begins",
            TimelineEventKind.WorkStopped => "hands-on work ends",
            TimelineEventKind.MachineShutDown => "machine shut down",
            TimelineEventKind.KeyRemoved => "key out and kept",
            TimelineEventKind.LockRemoved => "lock off",
            TimelineEventKind.LockApplied => "lock on",
            TimelineEventKind.TagRemoved => "tag off",
            TimelineEventKind.TagApplied => "tag on",
            TimelineEventKind.UnitSupported => "unit lifted and supported",
            TimelineEventKind.GlovesWorn => "gloves on",
            _ => Spaced(kind.ToString()),
        };

    /// <summary>First letter in upper case.</summary>
    public static string Sentence(string text) => SentenceCase.Begin(text);

    /// <summary>A count with its noun: <c>1 unit</c>, <c>2 units</c>.</summary>
    public static string Counted(int count, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>A list as it is said: a, b and c.</summary>
    public static string Listed(IReadOnlyList<string> items) =>
        items.Count switch
        {
            0 => "",
            1 => items[0],
            _ => $"{string.Join(", ", items.Take(items.Count - 1))} and {items[^1]}",
        };

    private static string Spaced(string pascal) =>
        string.Concat(
                pascal.Select((letter, at) => char.IsUpper(letter) && at > 0 ? $" {letter}" : $"{letter}")
            )
            .ToLowerInvariant();
}
