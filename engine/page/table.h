#pragma once
// Tables: columns set once, rows one below the other, hairlines between them.

#include <string>
#include <vector>

#include "engine/page/document.h"

namespace plumbline::page {

struct Column {
    std::string head;
    double width_mm = 0;
    Align align = Align::Left;  ///< figures to the right: all of them are of one width
};

struct TableForm {
    double row_mm = 5.2;
    double size_pt = 7.6;
    double head_pt = 6.8;
};

class Table {
public:
    /// @param document  lives longer than the table
    Table(Document& document, Point top_left, std::vector<Column> columns, TableForm form = {});

    /// The names of the columns and the line below them.
    void head();
    /// A row; cells that are wanting stay empty; dots stand for words that a cell has no
    /// room for.
    void row(const std::vector<Text>& cells);
    /// The place of a cell of the row before, for what is drawn in it.
    Box cell(std::size_t column) const;
    Style style(Weight weight = Weight::Regular) const { return {form_.size_pt, weight, kInk}; }
    double width_mm() const;
    double bottom_mm() const { return y_mm_; }

private:
    void cells(const std::vector<Text>& texts, double height_mm);

    Document& document_;
    double x_mm_, y_mm_;
    std::vector<Column> columns_;
    TableForm form_;
    double last_mm_ = 0;
};

}  // namespace plumbline::page
