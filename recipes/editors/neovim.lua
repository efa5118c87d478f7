-- Neovim: its own client on every design. Into init.lua, or a file under plugin/.
vim.api.nvim_create_autocmd({ "BufReadPost", "BufNewFile" }, {
  pattern = { "*.bore.yaml", "*.bore.yml", "*.bore.json" },
  callback = function(event)
    local config = {
      name = "borewright",
      cmd = { "borewright", "serve", "--stdio" },
      root_dir = vim.fn.fnamemodify(event.file, ":p:h"),
    }
    if vim.lsp.start then
      vim.lsp.start(config)
    else -- before 0.8
      vim.lsp.buf_attach_client(event.buf, vim.lsp.start_client(config))
    end
  end,
})
