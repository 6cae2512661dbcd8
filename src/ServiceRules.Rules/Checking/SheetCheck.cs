using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>A limit sheet in itself: its printed pairs, zones, units, the geometry that clicks are counted from.</summary>
internal static class SheetCheck
{
    private static readonly UnitSystem[] Systems = [UnitSystem.Metric, UnitSystem.Inch];

    public static void Run(RuleLibrary library, Remarks remarks)
    {
        foreach (var sheet in library.Sheets)
        {
            Prints(sheet, remarks);
            Zones(sheet, remarks);
            Geometry(sheet, remarks);
            StepFloorCheck.Run(sheet, remarks);
            Words(sheet, remarks);
            Basis(sheet, remarks);
        }
    }

    private static void Prints(Placed<LimitSheet> sheet, Remarks remarks)
    {
        var system = sheet.Value.Width.Governing.System;
        foreach (var (pointer, print) in SheetPrints.Of(sheet.Value))
        {
            if (print.Agreement is PrintAgreement.Disagrees)
            {
                remarks.Error(
                    DiagnosticCode.PrintsDisagree,
                    sheet,
                    pointer,
                    $"`{print.Governing}` and `{print.Alternate}` cannot be roundings of one length",
                    $"a second figure that rounds the same length as `{print.Governing}`"
                );
            }
            else if (print.Agreement is PrintAgreement.AgreesWithNotice)
            {
                remarks.Notice(
                    DiagnosticCode.PrintsFarApart,
                    sheet,
                    pointer,
                    $"`{print.Governing}` and `{print.Alternate}` are more than 5 % apart: a reading between them passes in one system of units only",
                    "nothing to do when the manual prints it so; else a closer second figure"
                );
            }

            if (print.Governing.System != system)
            {
                remarks.Error(
                    DiagnosticCode.MixedUnits,
                    sheet,
                    pointer,
                    $"`{print.Governing}` governs here, while the width of the sheet is governed by `{sheet.Value.Width.Governing}`",
                    "one system of units governing throughout a sheet; the other figure beside it as `printed`"
                );
            }
        }
    }

    private static void Zones(Placed<LimitSheet> sheet, Remarks remarks)
    {
        foreach (var (limit, index) in sheet.Value.Quantities.Select((limit, index) => (limit, index)))
        {
            var at = FormattableString.Invariant($"/quantities/{index}");
            foreach (var system in Systems)
            {
                if (limit is { Lower: { } lower, Upper: { } upper } && lower.In(system) >= upper.In(system))
                {
                    remarks.Error(
                        DiagnosticCode.EmptyZone,
                        sheet,
                        at + "/upper",
                        $"no {FileWord.Of(limit.Quantity)} lies between `{lower}` and `{upper}`",
                        $"an upper limit above `{lower}`, in both figures"
                    );
                    break;
                }

                if (
                    limit.Target is { } target
                    && (
                        target.In(system) < limit.Lower?.In(system)
                        || target.In(system) > limit.Upper?.In(system)
                    )
                )
                {
                    remarks.Error(
                        DiagnosticCode.TargetOutside,
                        sheet,
                        at + "/target",
                        $"the target `{target}` lies outside the limits",
                        "a target from `lower` to `upper`, in both figures"
                    );
                    break;
                }
            }
        }
    }

    /// <summary>
    /// Clicks are counted for whatever turns in steps, and always for the clearance: that needs the step and where the
    /// two adjusters stand.
    /// </summary>
    private static void Geometry(Placed<LimitSheet> sheet, Remarks remarks)
    {
        if (
            sheet.Value.Of(MeasuredQuantity.Clearance) is not null
            && sheet.Value.Of(AdjusterKind.Clearance) is null
        )
        {
            remarks.Error(
                DiagnosticCode.NoGeometry,
                sheet,
                "/adjusters",
                "the sheet limits the clearance and has no clearance adjuster",
                "a `clearance` adjuster with `step`, `leftAt` and `rightAt`"
            );
        }

        foreach (
            var (adjuster, index) in sheet.Value.Adjusters.Select((adjuster, index) => (adjuster, index))
        )
        {
            var isCounted = adjuster.Kind is AdjusterKind.Clearance || adjuster.Step is not null;
            if (isCounted && adjuster is not { Step: not null, LeftAt: not null, RightAt: not null })
            {
                remarks.Error(
                    DiagnosticCode.NoGeometry,
                    sheet,
                    FormattableString.Invariant($"/adjusters/{index}"),
                    $"the {FileWord.Of(adjuster.Kind)} adjuster lacks what clicks are counted from",
                    "`step`, `leftAt` and `rightAt`"
                );
            }
            else if (
                adjuster.LeftAt is { } left
                && adjuster.RightAt is { } right
                && left.Value >= right.Value
            )
            {
                remarks.Error(
                    DiagnosticCode.NoGeometry,
                    sheet,
                    FormattableString.Invariant($"/adjusters/{index}/rightAt"),
                    $"the right adjuster at `{right}` does not stand right of the left one at `{left}`",
                    $"more than `{left}`"
                );
            }
        }
    }

    private static void Words(Placed<LimitSheet> sheet, Remarks remarks)
    {
        if (sheet.Value.Procedure.IsEmpty || sheet.Value.Cautions.IsEmpty)
        {
            var missing = sheet.Value.Procedure.IsEmpty ? "procedure" : "cautions";
            remarks.Notice(
                DiagnosticCode.SheetWithoutWords,
                sheet,
                "",
                $"the sheet has no `{missing}` for the people who work by it",
                $"`{missing}`, a list of plain sentences"
            );
        }
    }

    private static void Basis(Placed<LimitSheet> sheet, Remarks remarks)
    {
        BasisCheck.Run(sheet.Value.Basis, sheet, "/basis", remarks);
        if (sheet.Value.Wear is { } wear)
        {
            BasisCheck.Run(wear.Basis, sheet, "/wear/basis", remarks);
        }

        foreach (var (limit, index) in sheet.Value.Quantities.Select((limit, index) => (limit, index)))
        {
            BasisCheck.Run(
                limit.Basis,
                sheet,
                FormattableString.Invariant($"/quantities/{index}/basis"),
                remarks
            );
        }
    }
}
