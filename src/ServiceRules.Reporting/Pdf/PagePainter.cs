using PdfSharp.Drawing;
using PdfSharp.Pdf.Structure;
using PdfSharp.UniversalAccessibility;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Paints placed marks, and tells the structure tree what each group means.</summary>
internal sealed class PagePainter(XGraphics canvas, StructureBuilder structure, double pageHeight)
{
    private readonly List<(XRect Box, PdfStructureElement Element)> _signaturePlaces = [];
    private bool _inArtifact;

    /// <summary>The places for a signature that were come across, counted from the bottom of the page.</summary>
    public IReadOnlyList<(XRect Box, PdfStructureElement Element)> SignaturePlaces => _signaturePlaces;

    public void Paint(IEnumerable<Placed> items)
    {
        foreach (var item in items)
        {
            if (item is Placed.Group group)
            {
                PaintGroup(group);
            }
            else
            {
                PaintMark(item);
            }
        }
    }

    private void PaintGroup(Placed.Group group)
    {
        if (_inArtifact)
        {
            Paint(group.Children);
            return;
        }
        if (
            group.Children.IsEmpty && group.Role is not (StructureRole.TableCell or StructureRole.TableHeader)
        )
        {
            return;
        }
        _inArtifact = group.Role == StructureRole.Artifact;
        Begin(group);
        Paint(group.Children);
        structure.End();
        _inArtifact = false;
    }

    private void Begin(Placed.Group group)
    {
        switch (group.Role)
        {
            case StructureRole.Artifact:
                structure.BeginArtifact();
                break;
            case StructureRole.Section:
                structure.BeginElement(PdfGroupingElementTag.Section);
                break;
            case StructureRole.Figure:
                structure.BeginElement(
                    PdfIllustrationElementTag.Figure,
                    group.Alternative ?? "",
                    FromBottom(group.Bounds)
                );
                break;
            case StructureRole.TableHeader:
                structure.BeginElement(PdfBlockLevelElementTag.TableHeaderCell);
                // Heads stand above their columns; without a scope each reader guesses.
                structure.CurrentStructureElement.TableAttributes.Elements.SetName("/Scope", "/Column");
                break;
            default:
                structure.BeginElement(TagOf(group.Role));
                break;
        }
    }

    private static PdfBlockLevelElementTag TagOf(StructureRole role) =>
        role switch
        {
            StructureRole.Heading1 => PdfBlockLevelElementTag.Heading1,
            StructureRole.Heading2 => PdfBlockLevelElementTag.Heading2,
            StructureRole.Heading3 => PdfBlockLevelElementTag.Heading3,
            StructureRole.Table => PdfBlockLevelElementTag.Table,
            StructureRole.TableRow => PdfBlockLevelElementTag.TableRow,
            StructureRole.TableCell => PdfBlockLevelElementTag.TableDataCell,
            _ => PdfBlockLevelElementTag.Paragraph,
        };

    private void PaintMark(Placed item)
    {
        switch (item)
        {
            case Placed.Text text:
                canvas.DrawString(
                    text.Content,
                    ShippedFonts.Font(text.Style.Face, text.Style.Size),
                    Brush(text.Style.Ink),
                    text.X,
                    text.Baseline
                );
                break;
            case Placed.Line line:
                canvas.DrawLine(Pen(line.Stroke), At(line.From), At(line.To));
                break;
            case Placed.Rectangle shape:
                PaintRectangle(shape);
                break;
            case Placed.Ellipse shape:
                var (pen, brush) = (shape.Stroke, shape.Fill);
                canvas.DrawEllipse(
                    pen is null ? null : Pen(pen),
                    brush is null ? null : Brush(brush.Value),
                    Rect(shape.Box)
                );
                break;
            case Placed.Path path:
                PaintPath(path);
                break;
            case Placed.SignatureBox place:
                structure.BeginInlineLevelElement("Form");
                _signaturePlaces.Add((FromBottom(place.Box), structure.CurrentStructureElement));
                structure.End();
                break;
            default:
                throw new InvalidOperationException($"nothing is known about painting {item.GetType().Name}");
        }
    }

    private void PaintRectangle(Placed.Rectangle shape)
    {
        var pen = shape.Stroke is null ? null : Pen(shape.Stroke);
        var brush = shape.Fill is null ? null : Brush(shape.Fill.Value);
        if (shape.Radius > 0)
        {
            var corner = new XSize(2 * shape.Radius, 2 * shape.Radius);
            canvas.DrawRoundedRectangle(pen, brush, Rect(shape.Box), corner);
        }
        else
        {
            canvas.DrawRectangle(pen, brush, Rect(shape.Box));
        }
    }

    private void PaintPath(Placed.Path path)
    {
        XPoint[] points = [.. path.Points.Select(At)];
        if (!path.Closed)
        {
            canvas.DrawLines(Pen(path.Stroke!), points);
            return;
        }
        canvas.DrawPolygon(
            path.Stroke is null ? null : Pen(path.Stroke),
            path.Fill is null ? null : Brush(path.Fill.Value),
            points,
            XFillMode.Winding
        );
    }

    /// <summary>Structure and annotations count from the bottom of the page.</summary>
    private XRect FromBottom(Box box) => new(box.X, pageHeight - box.Bottom, box.Width, box.Height);

    private static XPoint At(Point point) => new(point.X, point.Y);

    private static XRect Rect(Box box) => new(box.X, box.Y, box.Width, box.Height);

    private static XColor Colour(Ink ink) => XColor.FromArgb(ink.Red, ink.Green, ink.Blue);

    private static XSolidBrush Brush(Ink ink) => new(Colour(ink));

    private static XPen Pen(Stroke stroke)
    {
        var pen = new XPen(Colour(stroke.Ink), stroke.Width) { LineJoin = XLineJoin.Round };
        switch (stroke.Dash)
        {
            case Dash.Dashed:
                pen.DashPattern = [4, 3];
                break;
            case Dash.Dotted:
                pen.DashPattern = [1, 2];
                break;
            default:
                pen.LineCap = XLineCap.Round;
                break;
        }
        return pen;
    }
}
